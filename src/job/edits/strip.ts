/** Changes to the strip and its reading, each a step to undo. */
import { setStrip } from '../facts/pitch.ts';
import type { ChangeOf } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { PitchStrip, WovenStrip } from '../schema/pitch.ts';
import type { JobEdit } from './edit.ts';
import { editsOf } from './edit.ts';

export const changeStrip = editsOf('strip', setStrip);

/** LPI to a thousandth: no print allows less. */
const thousandth = (lpi: number): number => Math.round(lpi * 1000) / 1000;

/** Centres the next strip on a pitch; its bands and steps stay as they are. */
export const centreStrip = (label: string, viewingLpi: number): JobEdit =>
  changeStrip(label, { centreLpi: thousandth(viewingLpi) });

type ReadingChange = ChangeOf<
  Pick<PitchStrip, 'measuredAcrossMm' | 'measuredAlongMm' | 'bestPlace' | 'counts' | 'readBy'>
>;

const isRead = ({ pitchStrip }: Job): boolean =>
  pitchStrip?.measuredAcrossMm !== undefined ||
  pitchStrip?.measuredAlongMm !== undefined ||
  pitchStrip?.bestPlace !== undefined ||
  (pitchStrip?.counts ?? []).some((count) => count !== '');

/**
 * Keeps a reading together with its strip: otherwise the advised bands would change with the job, and the
 * reading would no longer fit them.
 */
export const changeReading = (label: string, strip: WovenStrip, change: ReadingChange): JobEdit => [
  label,
  (job) => {
    const next = setStrip(job, { ...change, woven: strip });
    // A strip that was never woven is kept only while there is a reading of it.
    return strip.assumed === true && !isRead(next) ? setStrip(next, { woven: undefined }) : next;
  },
  `reading.${label}`,
];
