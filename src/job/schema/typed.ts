/** A title that was typed: the letters as the person set them. The frame beside it is the picture drawn of them. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

export const MOST_LETTERS = 400;

const colour = v.pipe(v.string(), v.regex(/^#[\da-f]{6}$/, 'A colour must be # and six digits.'));

export const typedSchema = openObject({
  /** Lines end with \n. */
  text: v.pipe(
    v.string(),
    v.regex(/\S/, 'A title needs at least one letter.'),
    v.maxLength(MOST_LETTERS, `A title has at most ${MOST_LETTERS} letters.`),
  ),
  /** A typeface of the studio’s own, a generic family, or one that the device has. */
  face: v.pipe(v.string(), v.nonEmpty('Name a typeface.'), v.maxLength(100)),
  /** What it was drawn in, as the device lacked the typeface; left out: the typeface itself. */
  instead: v.optional(v.pipe(v.string(), v.maxLength(100))),
  weight: wholeMeasure('Weight', 1, 1000),
  /** Height of a capital. */
  capMm: measure('Letter height', 0.5, 2000, ' mm'),
  colour,
  /** Outside the letters; 0: none. */
  outlineMm: measure('Outline width', 0, 200, ' mm'),
  outlineColour: colour,
  align: v.picklist(['left', 'middle', 'right']),
  /** From the middle of the print to the middle of the letters. */
  rightMm: measure('Title to the right', -10000, 10000, ' mm'),
  downMm: measure('Title down', -20000, 20000, ' mm'),
  /** Pixels of the drawn picture. */
  pxPerMm: measure('Pixels per millimetre', 0.01, 1000, ''),
});

export type Typed = v.InferOutput<typeof typedSchema>;
