/** Changes to the strip and its reading, each a step to undo. */
import { setStrip } from '../facts/pitch.ts';
import type { Job } from '../schema/job.ts';
import type { PitchStrip, WovenStrip } from '../schema/pitch.ts';
import type { JobEdit } from './edit.ts';

export const changeStrip = (label: string, change: Parameters<typeof setStrip>[1]): JobEdit => [
  label,
  (job) => setStrip(job, change),
  `strip.${label}`,
];

/** LPI to a thousandth: no print allows less. */
const thousandth = (lpi: number): number => Math.round(lpi * 1000) / 1000;

/** Centres the next strip on a pitch; its bands and steps stay as they are. */
export const centreStrip = (label: string, viewingLpi: number): JobEdit =>
  changeStrip(label, { centreLpi: thousandth(viewingLpi) });

type Reading = Pick<
  { [K in keyof PitchStrip]: PitchStrip[K] | undefined },
  'measuredAcrossMm' | 'measuredAlongMm' | 'bestPlace' | 'counts'
>;

const isRead = ({ pitchStrip }: Job): boolean =>
  pitchStrip?.measuredAcrossMm !== undefined ||
  pitchStrip?.measuredAlongMm !== undefined ||
  pitchStrip?.bestPlace !== undefined ||
  (pitchStrip?.counts ?? []).some((count) => count !== '');

/**
 * Something was read. The strip that it was read of is kept with it, so that the bands stay where they
 * are when the job, and with it the advice, changes.
 */
export const changeReading = (
  label: string,
  strip: WovenStrip,
  change: Partial<Reading>,
): JobEdit => [
  label,
  (job) => {
    const next = setStrip(job, { ...change, woven: strip });
    // A strip that was only assumed is kept as long as there is a reading of it.
    return strip.assumed === true && !isRead(next) ? setStrip(next, { woven: undefined }) : next;
  },
  `reading.${label}`,
];
