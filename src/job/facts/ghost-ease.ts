/** Contrast that is lowered where pictures of a flip shine through in others. */
import type { EaseMask } from '../../core/weave/ease.ts';
import type { Job } from '../schema/job.ts';

/** What is taken from a frame; undefined where nothing is, or it is no picture of a flip. */
export const easeOf = ({ ghostEase, recipe }: Job, frameId: string): EaseMask | undefined =>
  recipe?.kind === 'flip' && recipe.pictures.includes(frameId)
    ? ghostEase?.masks.find(({ frame }) => frame === frameId)?.cells
    : undefined;

/** Of all masks at work: how many places are lowered, and by how many per cent at most. */
export const easedPlaces = (job: Job): { readonly places: number; readonly most: number } => {
  const cells = (job.ghostEase?.masks ?? [])
    .flatMap(({ frame }) => easeOf(job, frame) ?? [])
    .filter((taken) => taken > 0);
  return { places: cells.length, most: Math.max(0, ...cells) };
};

/** A sentence; '' where nothing is lowered. */
export const sayEased = (job: Job): string => {
  const { places, most } = easedPlaces(job);
  return places === 0
    ? ''
    : `Contrast is lowered in ${places === 1 ? 'one place' : `${places} places`} against ghosts, by ${most} % at most.`;
};
