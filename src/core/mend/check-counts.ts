/** Checks that counts are possible: lengths are lengths, and there are no more bands than ribs allow. */
import type { Counts, Stripes } from './counts.ts';
import type { MendSetup } from './fault.ts';
import { printAcrossMm, printAlongMm } from './fault.ts';

/** The stripes that were measured, if any. */
export const stripesOf = ({ stripes }: Counts): Stripes | undefined =>
  stripes === 'none' ? undefined : stripes;

/** @throws RangeError that names an impossible count. */
export const checkCounts = (counts: Counts): void => {
  const lengths = [
    'bandsAcross',
    'bandsAlong',
    'jumpForthMm',
    'jumpBackMm',
    'jumpTakesMm',
  ] as const;
  for (const field of lengths) {
    const value = counts[field];
    if (value !== undefined && !(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected 0 or more, received ${value}`);
  }
  const above: [string, number | undefined][] = [
    ['repeatMm', counts.repeatMm],
    ['lookedFromMm', counts.lookedFromMm],
    ['barAcross.drawnMm', counts.barAcross?.drawnMm],
    ['barAcross.measuredMm', counts.barAcross?.measuredMm],
    ['barAlong.drawnMm', counts.barAlong?.drawnMm],
    ['barAlong.measuredMm', counts.barAlong?.measuredMm],
    ['stripes.heightMm', stripesOf(counts)?.heightMm],
  ];
  for (const [field, value] of above)
    if (value !== undefined && !(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a length above 0 mm, received ${value}`);
};

/** A band narrower than this many ribs cannot be seen (our own value). */
const NARROWEST = 4;

export type BandCount = 'bandsAcross' | 'bandsAlong';

/** The band counts that are too large for this print. */
export const beyondPrint = ({ sheet }: MendSetup, counts: Counts): BandCount[] => {
  const most = (sizeMm: number) => sizeMm / sheet.viewingPitchMm / NARROWEST;
  const [across, along] = [most(printAcrossMm(sheet)), most(printAlongMm(sheet))];
  return [
    ...((counts.bandsAcross ?? 0) > across ? (['bandsAcross'] as const) : []),
    ...((counts.bandsAlong ?? 0) > along ? (['bandsAlong'] as const) : []),
  ];
};
