/** Several prints on one lens sheet: the sheet, how it is used, and what else lies on it. */
import * as v from 'valibot';
import { MOST_PLACES } from '../../core/sheet/gang/gang-pack.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

/** Another kept job of the same lens. */
const gangGuestSchema = openObject({
  jobId: v.pipe(v.string(), v.nonEmpty(), v.maxLength(100)),
  copies: wholeMeasure('Copies', 1, MOST_PLACES),
  /** What it was last called: names it where it is not kept, as on another computer. */
  name: v.optional(v.pipe(v.string(), v.maxLength(200))),
});

export const gangSchema = openObject({
  /** False: the lens holds one print, and what is set here waits. */
  on: v.boolean(),
  /** A lens sheet as bought: across its ribs and along them. */
  lensAcrossMm: measure('Lens across the ribs', 10, 5000, ' mm'),
  lensAlongMm: measure('Lens along the ribs', 10, 20000, ' mm'),
  /** Left free at each of its edges. */
  edgeMm: measure('Free edge', 0, 100, ' mm'),
  /** A blade's way between two prints, and room for what is cut off. */
  gapMm: measure('Gap', 0, 100, ' mm'),
  /** Left out: as many as find room. */
  copies: v.optional(wholeMeasure('Copies', 1, MOST_PLACES)),
  /** What is printed between the prints: lines to cut on, or more of the picture. */
  between: v.picklist(['lines', 'picture']),
  guests: v.optional(v.pipe(v.array(gangGuestSchema), v.maxLength(12, 'At most 12 other jobs.'))),
});

export type Gang = v.InferOutput<typeof gangSchema>;
