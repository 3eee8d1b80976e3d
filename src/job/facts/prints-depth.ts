/** Whether the frames of a job are views of one scene that may blend, or pictures that each need a dot of their own. */
import type { Job } from '../schema/job.ts';

/**
 * A view shared out over two dots shows its neighbours, from cameras close beside its own, and the turn is only the
 * smoother. Pictures of a flip and moments of a movement ghost instead. Under lying ribs there is no depth.
 */
export const printsDepth = ({ recipe, ribs }: Job): boolean =>
  ribs === 'upright' && (recipe === undefined || recipe.kind === 'change');

/**
 * Whether there is depth to judge: two eyes that see two views of one scene. Pictures of a flip and moments of a movement
 * have none, and under lying ribs both eyes see the same.
 */
export const showsDepth = ({ recipe, ribs }: Job): boolean =>
  ribs === 'upright' && recipe?.kind !== 'flip' && recipe?.kind !== 'animation';
