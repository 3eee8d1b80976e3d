/** What a lens is looked for: whatever is left out follows from the job. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

export const lensWishSchema = openObject({
  use: v.optional(v.picklist(['depth', 'flip', 'animation'])),
  /** Of a flip. */
  pictures: v.optional(wholeMeasure('Pictures', 2, 12)),
  /** Seen from between these. */
  nearMm: v.optional(measure('Seen from', 50, 50000, ' mm')),
  farMm: v.optional(measure('Seen from', 50, 50000, ' mm')),
  /** How far the scene reaches before the print and behind it, both above 0. */
  frontMm: v.optional(measure('Depth in front', 0, 50000, ' mm')),
  behindMm: v.optional(measure('Depth behind', 0, 1000000, ' mm')),
  mostPrice: v.optional(measure('Price of a sheet', 0, 1e9, '')),
});
export type KeptLensWish = v.InferOutput<typeof lensWishSchema>;
