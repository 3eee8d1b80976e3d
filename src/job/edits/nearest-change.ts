/** Carries out a change that was found for the lens wish (src/core/plan/nearest-change.ts): one step to undo. */
import type { Change } from '../../core/plan/nearest-change.ts';
import { depthMarksOf } from '../facts/plan.ts';
import { acrossMm } from '../facts/sheet.ts';
import { lensWishOf, setLensWish } from '../facts/lens-wish.ts';
import type { Job } from '../schema/job.ts';
import type { KeptLensWish } from '../schema/lens-wish.ts';
import { setDepthGain, setViewSlots } from './consequences.ts';
import type { JobEdit } from './edit.ts';
import { lookKey } from './edit.ts';

/** Those that the wish states itself. */
const stated = (
  { lensWish = {} }: Job,
  fields: readonly ('nearMm' | 'farMm' | 'frontMm' | 'behindMm')[],
  to: (value: number) => number,
): Partial<KeptLensWish> =>
  Object.fromEntries(
    fields.flatMap((field) => {
      const value = lensWish[field];
      return value === undefined ? [] : [[field, to(value)]];
    }),
  );

/**
 * All distances in proportion. The print is woven for a place that it is seen from: one outside the wish comes within.
 */
export const lookFrom = (job: Job, nearMm: number): Job => {
  const before = lensWishOf(job);
  const scale = nearMm / before.nearMm;
  const after = setLensWish(
    job,
    stated(job, ['nearMm', 'farMm'], (value) => value * scale),
  );
  const wanted = job.print.viewingDistanceMm * scale;
  const viewingDistanceMm = Math.min(before.farMm * scale, Math.max(nearMm, wanted));
  return { ...after, print: { ...job.print, viewingDistanceMm } };
};

/** What stands before the print and behind it shrinks with the picture. */
const printAcross = (job: Job, size: number): Job => {
  const scale = size / acrossMm(job);
  const { widthMm, heightMm } = job.print;
  const rounded = (length: number) => Number((length * scale).toFixed(1));
  const after = setLensWish(
    job,
    stated(job, ['frontMm', 'behindMm'], (value) => value * scale),
  );
  const { depthMarks: _unscaled, ...rest } = after;
  const marks = depthMarksOf(job).map((mark) => ({ ...mark, zMm: mark.zMm * scale }));
  return {
    ...rest,
    ...(marks.length === 0 ? {} : { depthMarks: marks }),
    print: { ...job.print, widthMm: rounded(widthMm), heightMm: rounded(heightMm) },
  };
};

const setFrames = (job: Job, frames: number): Job =>
  lensWishOf(job).use === 'flip'
    ? setLensWish(job, { pictures: frames })
    : setViewSlots(job, frames);

export const applyChange = (job: Job, { distance, size, gain, frames }: Change): Job => {
  const moved = distance === undefined ? job : lookFrom(job, distance);
  const sized = size === undefined ? moved : printAcross(moved, size);
  const flattened = gain === undefined ? sized : setDepthGain(sized, gain);
  return frames === undefined ? flattened : setFrames(flattened, frames);
};

/** Only asks for another place: the print stays woven for its own distance. Rows of such looks are one step to undo. */
export const exploreFrom = (nearMm: number): JobEdit => [
  'distance looked at',
  (job) => {
    const before = lensWishOf(job);
    const farMm = Number(((before.farMm * nearMm) / before.nearMm).toFixed(1));
    return setLensWish(job, { nearMm, farMm });
  },
  lookKey('lens distance'),
];
