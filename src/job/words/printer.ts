/** The printer's axes and the page's edges, as sentences name them. */
import type { Job } from '../schema/job.ts';
import { isMirrored } from '../facts/printer.ts';
import type { FedFirst, PrinterAxis } from '../facts/printer.ts';

export const axisWords: Readonly<Record<PrinterAxis, string>> = {
  carriage: 'along the carriage',
  feed: 'along the feed',
};

export const edgeWords: Readonly<Record<FedFirst, string>> = {
  top: 'top edge',
  side: 'a side',
};

/** Of a file that is mirrored; empty for others. */
export const mirroredWords = (job: Job): string =>
  isMirrored(job)
    ? 'Mirrored left to right, for film laid from behind: leave mirror printing in the driver off.'
    : '';
