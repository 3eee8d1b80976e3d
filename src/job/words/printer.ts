/** The printer's axes and the page's edges, as sentences name them. */
import type { FedFirst, PrinterAxis } from '../facts/printer.ts';

export const axisWords: Readonly<Record<PrinterAxis, string>> = {
  carriage: 'along the carriage',
  feed: 'along the feed',
};

export const edgeWords: Readonly<Record<FedFirst, string>> = {
  top: 'top edge',
  side: 'a side',
};
