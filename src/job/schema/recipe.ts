/** The recipe for the view slots, and the title. */
import * as v from 'valibot';
import { MOST_PICTURES } from '../../core/frames/recipes.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

const zoneShare = (what: string) => measure(what, 0, 1, ' of the zone');

export const recipeSchema = v.variant('kind', [
  openObject({
    kind: v.literal('flip'),
    /** Frame ids; '' where none is chosen yet. */
    pictures: v.pipe(
      v.array(v.string()),
      v.minLength(2, 'A flip has at least 2 pictures.'),
      v.maxLength(MOST_PICTURES, `A flip has at most ${MOST_PICTURES} pictures.`),
    ),
    guardSlots: wholeMeasure('Guard slots', 0, 100),
    guard: v.picklist(['mean', 'grey', 'white', 'black']),
    /** What an eye straight ahead sees; left out: the middle of the zone. */
    ahead: v.optional(
      v.variant('show', [
        openObject({
          show: v.literal('picture'),
          at: wholeMeasure('Picture', 0, MOST_PICTURES - 1),
        }),
        openObject({ show: v.literal('change'), at: wholeMeasure('Change', 0, MOST_PICTURES - 2) }),
        openObject({ show: v.literal('moved'), zones: measure('Moved by', -0.5, 0.5, ' zones') }),
      ]),
    ),
  }),
  openObject({ kind: v.literal('sway') }),
  openObject({
    kind: v.literal('change'),
    /** Ids of the frames of the second set; all others are in the first. */
    second: v.array(v.string()),
    crossAt: zoneShare('Middle of the crossing'),
    crossWidth: zoneShare('Width of the crossing'),
  }),
  openObject({ kind: v.literal('animation') }),
]);

/** A still picture with transparency over all slots. Its frame is not in the recipe. */
export const titleSchema = openObject({
  frame: v.string(),
  /** Motion to the right from one view slot to the next: above 0 the title lies behind the print. */
  step: measure('Title’s step', -5, 5, ' ribs per view'),
});
