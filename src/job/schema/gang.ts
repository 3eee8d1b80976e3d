/** Several prints on one lens sheet: the sheet, how it is used, and the other jobs on it. */
import * as v from 'valibot';
import { MOST_PLACES } from '../../core/sheet/gang/gang-grid.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

/** Another kept job of the same lens. */
const gangGuestSchema = openObject({
  jobId: v.pipe(v.string(), v.nonEmpty(), v.maxLength(100)),
  copies: wholeMeasure('Copies', 1, MOST_PLACES),
  /** Its last known name, for a computer that does not keep that job. */
  name: v.optional(v.pipe(v.string(), v.maxLength(200))),
});

export const gangSchema = openObject({
  /** False: the lens sheet holds one print, and these settings are not used. */
  on: v.boolean(),
  /** A lens sheet as bought: across its ribs and along them. */
  lensAcrossMm: measure('Lens across the ribs', 10, 5000, ' mm'),
  lensAlongMm: measure('Lens along the ribs', 10, 20000, ' mm'),
  /** Left free at each of its edges. */
  edgeMm: measure('Free edge', 0, 100, ' mm'),
  /** Room between two prints for the blade and for waste. */
  gapMm: measure('Gap', 0, 100, ' mm'),
  /** Left out: as many as fit. */
  copies: v.optional(wholeMeasure('Copies', 1, MOST_PLACES)),
  /** What is printed between the prints: lines for cutting, or more of the picture. */
  between: v.picklist(['lines', 'picture']),
  guests: v.optional(v.pipe(v.array(gangGuestSchema), v.maxLength(12, 'At most 12 other jobs.'))),
});

export type Gang = v.InferOutput<typeof gangSchema>;
