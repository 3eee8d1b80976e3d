/** Findings of the pitch: it was proved for another job, or not exactly enough. */
import { sayDoubted, trimmed } from '../../core/units/format.ts';
import { setPrinter, unproved } from '../edits/consequences.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';
import type { Job } from '../schema/job.ts';
import type { KeptReading } from '../facts/pitch-history.ts';
import { lpiAtJob, readingsAcross, readingsFor, takeReading } from '../facts/pitch-history.ts';
import { advisedBands, bandPlanOf, pitchBudget, setFinerStrip } from '../facts/pitch.ts';
import type { FedFirst, PrinterAxis } from '../facts/printer.ts';
import { gridOf } from '../facts/printer.ts';
import { axisWords, edgeWords } from '../words/printer.ts';

/** The studio applied an earlier pitch by itself, so it says so: the lens may be another sheet of the same make. */
const recalledHere = (job: Job): Finding | undefined => {
  const proved = job.provedPitch;
  if (proved?.recalled !== true) return undefined;
  return {
    id: 'pitch-recalled',
    severity: 'note',
    title: 'The pitch comes from an earlier strip',
    figure: [proved.readOn && `read on ${proved.readOn}`, proved.paper && `on ${proved.paper}`]
      .filter(Boolean)
      .join(' '),
    reason: 'A strip was read for this lens, this printer setting and this axis of the printer.',
    remedy: 'It holds for sheets of the same make and the same paper; else print a strip.',
    action: {
      label: 'Go back to the nominal pitch',
      undoLabel: 'proved pitch',
      edit: unproved,
    },
  };
};

/** The job had this lens and printer before the strip was read, or its proved pitch was removed. */
const knownHere = (job: Job, kept: readonly KeptReading[]): Finding | undefined => {
  const newest = job.provedPitch === undefined ? readingsFor(job, kept)[0] : undefined;
  if (newest === undefined) return undefined;
  const { plusMinusLpi, readOn, paper } = newest.proved;
  const lpi = lpiAtJob(job, newest);
  return {
    id: 'pitch-known-here',
    severity: 'note',
    title: 'A pitch was read for this lens and printer',
    figure: `${plusMinusLpi === undefined ? trimmed(lpi, 3) : sayDoubted({ value: lpi, plusMinus: plusMinusLpi }, 3)} LPI at this distance`,
    reason:
      `Read${readOn === undefined ? '' : ` on ${readOn}`}` +
      `${paper === undefined ? '' : ` on ${paper}`}. It holds for the same paper and the same way through the printer.`,
    remedy: 'Use it if nothing has changed since; else print a strip.',
    action: {
      label: 'Use that pitch',
      undoLabel: 'proved pitch',
      edit: (current) => takeReading(current, newest),
    },
  };
};

const otherAxis: Readonly<Record<PrinterAxis, PrinterAxis>> = {
  carriage: 'feed',
  feed: 'carriage',
};
const otherEdge: Readonly<Record<FedFirst, FedFirst>> = { top: 'side', side: 'top' };

/** A strip for this lens went the other way through the printer: its pitch is not taken. */
const alongOtherAxis = (job: Job, kept: readonly KeptReading[]): Finding | undefined => {
  if (job.provedPitch !== undefined || readingsFor(job, kept).length > 0) return undefined;
  const [newest] = readingsAcross(job, kept);
  if (newest === undefined) return undefined;
  const { axis, fedFirst } = gridOf(job);
  const fedFirstThen = otherEdge[fedFirst];
  const turned = setPrinter(job, { fedFirst: fedFirstThen });
  const calibrate = { label: 'Go to Calibrate', goTo: 'calibrate', part: 'strip' } as const;
  return {
    id: 'pitch-other-axis',
    severity: 'note',
    title: 'The pitch was read along the printer’s other axis',
    figure: `${trimmed(lpiAtJob(job, newest), 3)} LPI ${axisWords[otherAxis[axis]]}; this sheet needs it ${axisWords[axis]}`,
    reason:
      'Paper and printer stretch a print otherwise along the feed than along the carriage, so that strip does not prove this sheet’s pitch.',
    remedy: `Print a strip as this sheet is printed, ${edgeWords[fedFirst]} first, and read it.`,
    action: calibrate,
    ...(readingsFor(turned, [newest]).length === 0
      ? {}
      : {
          otherAction: {
            label: `Feed the page ${edgeWords[fedFirstThen]} first`,
            undoLabel: 'fed first',
            edit: (now: Job) => setPrinter(now, { fedFirst: fedFirstThen }),
          },
        }),
  };
};

const notFineEnough = (job: Job): Finding | undefined => {
  const plusMinus = job.provedPitch?.plusMinusLpi;
  const allowed = pitchBudget(job);
  // The strip's steps are rounded to what its labels can show.
  if (plusMinus === undefined || plusMinus <= allowed * 1.005) return undefined;
  const finer = advisedBands(job, 2);
  const now = bandPlanOf(job);
  const isSet =
    now.centreLpi === finer.centreLpi &&
    now.spreadLpi === finer.spreadLpi &&
    now.bands === finer.bands;
  return {
    id: 'pitch-not-fine-enough',
    severity: 'caution',
    title: 'The pitch is not proved exactly enough for this print',
    figure: `±${trimmed(plusMinus, 3)} LPI, where ±${trimmed(allowed, 3)} LPI is needed`,
    reason:
      'The strip could not tell the pitch as closely as a print of this width needs it, so the picture may drift from edge to edge.',
    remedy:
      'Weave a finer strip round this pitch, as wide as the paper allows, and count fringes in as many bands as Calibrate advises.',
    action: isSet
      ? { label: 'Go to Calibrate', goTo: 'calibrate', part: 'strip' }
      : { label: 'Set up a finer strip', undoLabel: 'strip', edit: setFinerStrip },
  };
};

export const pitchFindings = (job: Job, kept: readonly KeptReading[]): Finding[] =>
  foundIn([notFineEnough(job), recalledHere(job), knownHere(job, kept), alongOtherAxis(job, kept)]);
