/** What a job keeps of its materials: the chosen shelf entries, and what has been used up. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

const entryId = v.pipe(v.string(), v.maxLength(100));

export const stockSchema = openObject({
  /** Ids of shelf entries. Left out: the studio looks for an entry with the job's numbers. */
  lensId: v.optional(entryId),
  printerId: v.optional(entryId),
  paperId: v.optional(entryId),
  /** Between pieces cut from one sheet. */
  gapMm: v.optional(measure('Gap', 0, 200, ' mm')),
  /** Prints made so far, thrown away or not. */
  trials: v.optional(wholeMeasure('Prints made so far', 0, 100000)),
  strips: v.optional(wholeMeasure('Pitch strips made so far', 0, 100000)),
  /** The person's own time: printing, drying, laminating, trimming. */
  printHours: v.optional(measure('Hours for a print', 0, 1000, ' hours')),
  stripHours: v.optional(measure('Hours for a pitch strip', 0, 1000, ' hours')),
});
export type JobStock = v.InferOutput<typeof stockSchema>;
