/** Recipes and the content of slots, in words. */
import type { Plain, RecipeKind, SlotContent } from '../../core/frames/recipes.ts';
import type { Job } from '../schema/job.ts';
import { recipeKindOf } from '../edits/recipe.ts';
import { sequenceOf } from '../facts/sheet.ts';

export const recipeNames: Readonly<Record<RecipeKind, string>> = {
  depth: 'Depth',
  flip: 'Flip',
  sway: 'There and back',
  change: 'Depth with a crossfade',
  animation: 'Animation',
};

export const plainNames: Readonly<Record<Plain, string>> = {
  grey: 'plain grey',
  white: 'plain white',
  black: 'plain black',
};

/** What a slot shows: "a.png", "30 % a.png and 70 % b.png", "plain grey". */
export const saySlot = (
  { parts, plain }: SlotContent,
  nameOf: (frameId: string) => string,
): string => {
  if (plain !== undefined) return plainNames[plain];
  const [first, second] = parts;
  if (first === undefined) return 'nothing';
  if (second === undefined) return nameOf(first.frame);
  const share = Math.round(100 * second.weight);
  return `${100 - share} % ${nameOf(first.frame)} and ${share} % ${nameOf(second.frame)}`;
};

const sayEven = (job: Job): string => {
  const { viewSlots: slots } = job;
  const frames = sequenceOf(job).length;
  if (frames === slots) return `${frames} frames for ${slots} view slots: one each.`;
  if (frames > slots)
    return `${frames} frames for ${slots} view slots: spread evenly, the first and the last kept.`;
  const least = Math.floor(slots / frames);
  const held = slots % frames === 0 ? `${least}` : `${least} or ${least + 1}`;
  return `${frames} ${frames === 1 ? 'frame' : 'frames'} for ${slots} view slots: each is held over ${held} slots.`;
};

/** What the recipe does with these frames, in a sentence or two. */
export const sayRecipe = (job: Job): string => {
  switch (recipeKindOf(job)) {
    case 'depth':
      return sayEven(job);
    case 'flip':
      return 'Each picture is held, then gives way to the next; guard slots between them keep one from ghosting into the other.';
    case 'sway':
      return 'The frames run forward, then backward, so that the picture does not jump where the next zone begins.';
    case 'change':
      return 'Two sets from the same cameras: each slot shows its camera’s picture of the first set, of the second, or a mix in linear light.';
    case 'animation':
      return job.ribs === 'upright'
        ? `${sayEven(job)} Under upright ribs the two eyes see different moments.`
        : `${sayEven(job)} Under lying ribs both eyes see the same moment.`;
  }
};

export const sayFirstSlot = (job: Job): string => {
  const kind = recipeKindOf(job);
  if (kind === 'depth' || kind === 'change') return 'Slot 1 is the leftmost camera.';
  return `Slot 1 is seen from ${job.ribs === 'upright' ? 'the left' : 'above'}.`;
};
