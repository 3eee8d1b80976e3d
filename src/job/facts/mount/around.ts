/** What is printed around the picture in the layout at hand: what the steps may speak of. */
import {
  LEAST_STROKE_MM,
  hasRoomForWords,
  railWidthMm,
  rimMm,
} from '../../../core/sheet/gang/gang-rim.ts';
import type { Job } from '../../schema/job.ts';
import { gangOf } from '../gang.ts';
import { pageOf, printedAround } from '../page.ts';
import { railUnderLensMm } from '../tiles.ts';

const none = { rails: false, marks: false, label: false, bar: false };

/** Rails count where they lie under the lens. */
export const aroundOf = (job: Job): ReturnType<typeof printedAround> => {
  const ticked = printedAround(job);
  if (job.tiles?.on === true) return { ...ticked, rails: ticked.rails && railUnderLensMm(job) > 0 };
  if (job.gang?.on === true) {
    const { edgeMm } = gangOf(job);
    const words = hasRoomForWords(edgeMm);
    return {
      rails: ticked.rails && railWidthMm(edgeMm) > 0,
      marks: ticked.marks && rimMm(edgeMm, ticked.rails) >= LEAST_STROKE_MM,
      label: ticked.label && words,
      bar: ticked.bar && words,
    };
  }
  return pageOf(job).on ? ticked : none;
};
