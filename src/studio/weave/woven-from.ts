/** Everything a sheet's dots depend on, so that a finished file is known to be out of date. */
import type { Job } from '../../job/schema/job.ts';
import { trimOf } from '../../job/facts/ghost.ts';
import { sheetSpecOf, slotsOf } from '../../job/facts/sheet.ts';
import { softenKeyOf } from '../../job/facts/soften.ts';
import { workStore } from '../../state/work.ts';

/** Equal: the same dots, with the same page around them. */
export const wovenFrom = (job: Job): string =>
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
    softenKeyOf(job, workStore.getState().wholeParallax) ?? '',
  ]);
