/** Keys that show whether a finished file is out of date. */
import { trimOf } from '../../job/facts/ghost.ts';
import type { WholeParallax } from '../../job/facts/parallax.ts';
import { gridOf } from '../../job/facts/printer.ts';
import { sheetSpecOf, slotsOf } from '../../job/facts/sheet.ts';
import { softenKeyOf } from '../../job/facts/soften.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';

/** A key of everything that a sheet's dots and its page depend on. */
export const wovenFrom = (job: Job, wholeParallax: WholeParallax | undefined): string =>
  JSON.stringify([
    sheetSpecOf(job),
    slotsOf(job),
    job.keyShift ?? 0,
    job.title ?? null,
    job.placement,
    job.exposureStops,
    trimOf(job) ?? null,
    job.lamp ?? null,
    job.page?.on === true ? [job.page, job.name] : null,
    softenKeyOf(job, wholeParallax) ?? '',
    // What was woven before pages could be turned keeps its key.
    ...(gridOf(job).fedFirst === 'top' ? [] : ['side first']),
  ]);

/** @returns whether the key of another state of the job differs from the present one */
export const staleBy = (
  { work }: Floor,
  job: Job,
  keyOf: (job: Job, wholeParallax: WholeParallax | undefined) => string,
): ((now: Job) => boolean) => {
  const key = keyOf(job, work.getState().wholeParallax);
  return (now) => keyOf(now, work.getState().wholeParallax) !== key;
};
