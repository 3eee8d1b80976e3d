/** What the job keeps of a recipe for the view slots. Left out: frames of depth, spread evenly. */
import * as v from 'valibot';
import { MOST_PICTURES } from '../../core/frames/recipes.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

const zoneShare = (what: string) => measure(what, 0, 1, ' of the zone');

export const recipeSchema = v.variant('kind', [
  openObject({
    kind: v.literal('flip'),
    /** Frame ids, '' where none is chosen yet. */
    pictures: v.pipe(
      v.array(v.string()),
      v.minLength(2, 'A flip has at least 2 pictures.'),
      v.maxLength(MOST_PICTURES, `A flip has at most ${MOST_PICTURES} pictures.`),
    ),
    guardSlots: wholeMeasure('Guard slots', 0, 100),
    guard: v.picklist(['mean', 'grey', 'white', 'black']),
  }),
  openObject({ kind: v.literal('sway') }),
  openObject({
    kind: v.literal('change'),
    /** Ids of the frames of the second set; all others are the first. */
    second: v.array(v.string()),
    crossAt: zoneShare('Middle of the crossing'),
    crossWidth: zoneShare('Width of the crossing'),
  }),
  openObject({ kind: v.literal('animation') }),
]);

/** A still picture with transparency over all slots. Its frame then takes no part in the recipe. */
export const titleSchema = openObject({
  frame: v.string(),
  /** From one view slot to the next, to the right: above 0 it stands behind the print. */
  step: measure('Title’s step', -5, 5, ' ribs per view'),
});
