/** Takes a pair of lens and printer into the job, and says what changed. */
import { sayLengthTo, trimmed } from '../core/units/format.ts';
import type { LengthUnit } from '../core/units/parse.ts';
import { setDensity, takePair } from '../job/edits/consequences.ts';
import type { Job } from '../job/schema/job.ts';
import type { Row } from './pairs.ts';
import { gridOf } from '../job/facts/printer.ts';

/** Twice what an eye tells apart makes depth smooth; more is wasted rendering. */
export const slotsFor = (row: Row, toldApart: number | undefined): number =>
  Math.max(2, Math.min(row.wholeFrames, 2 * (toldApart ?? 60)));

/** Dots along change too if they were equal to those across. */
export const layPair = (job: Job, row: Row, viewSlots: number): Job => {
  const acrossDpi = row.isOwnPrinter ? gridOf(job).acrossDpi : row.dpi;
  const isSquare = gridOf(job).alongDpi === gridOf(job).acrossDpi;
  const next = takePair(job, row.lpi, acrossDpi, viewSlots);
  return isSquare ? setDensity(next, { alongDpi: acrossDpi }) : next;
};

const lost = (before: Job, after: Job): string[] => {
  const parts: readonly [name: string, of: (job: Job) => unknown][] = [
    ['the proved pitch', (job) => job.provedPitch],
    ['the rib radius', (job) => job.lens.radiusMm],
    ['the supplier’s angle', (job) => job.lens.supplierAngleDeg],
    ['the slots filled by hand', (job) => job.slotsByHand],
  ];
  return parts
    .filter(([, of]) => of(before) !== undefined && of(after) === undefined)
    .map(([name]) => name);
};

/** What changed, a sentence each. */
export const sayPair = (
  row: Row,
  before: Job,
  after: Job,
  units: LengthUnit,
): { title: string; lines: string[] } => {
  const { thicknessMm } = after.lens;
  const gone = lost(before, after);
  return {
    title: `${trimmed(row.lpi, 3)} LPI over ${trimmed(row.dpi, 2)} dpi is on the job sheet`,
    lines: [
      `View slots are ${after.viewSlots}; they were ${before.viewSlots}.`,
      ...(thicknessMm === before.lens.thicknessMm
        ? []
        : [
            `Lens thickness is ${sayLengthTo(thicknessMm, units, 3)}, in proportion to the pitch: an assumption. Type the supplier’s.`,
          ]),
      ...(gone.length === 0 ? [] : [`Let go, since it was of the old pair: ${gone.join(', ')}.`]),
    ],
  };
};
