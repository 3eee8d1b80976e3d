/** What is printed around the picture in the layout at hand: what the steps may speak of. */
import { railWidthMm } from '../../../core/sheet/gang/gang-spec.ts';
import type { Job } from '../../schema/job.ts';
import { gangOf } from '../gang.ts';
import { pageOf, printedAround } from '../page.ts';
import { railUnderLensMm } from '../tiles.ts';

const none = { rails: false, marks: false, label: false, bar: false };

/** Rails count where they lie under the lens. */
export const aroundOf = (job: Job): ReturnType<typeof printedAround> => {
  const ticked = printedAround(job);
  if (job.tiles?.on === true) return { ...ticked, rails: ticked.rails && railUnderLensMm(job) > 0 };
  // No crop marks yet around several prints.
  if (job.gang?.on === true)
    return {
      ...ticked,
      rails: ticked.rails && railWidthMm(gangOf(job).edgeMm) > 0,
      marks: false,
      bar: false,
    };
  return pageOf(job).on ? ticked : none;
};
