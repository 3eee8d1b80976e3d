/** What was made of the pieces of a print: each copy of each piece that is mounted, on which lens. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

export const MOST_COPIES = 99;
const MOST_MOUNTED = 5000;

export const lensBatchText = v.pipe(
  v.string(),
  v.maxLength(80, 'A lens batch has at most 80 letters.'),
);

const mountedSchema = openObject({
  /** Name of the piece, as its file's: "row 1, tile 2". */
  piece: v.pipe(v.string(), v.maxLength(80)),
  /** From 1. */
  copy: wholeMeasure('Copy', 1, MOST_COPIES),
  on: v.pipe(v.string(), v.isoDate()),
  lensBatch: v.optional(lensBatchText),
  /** Lens pitch that the job had on that day, and whether a strip had proved it. */
  pitchMm: measure('Lens pitch', 0.01, 50, ' mm'),
  proved: v.boolean(),
});
export type Mounted = v.InferOutput<typeof mountedSchema>;

export const printRunSchema = openObject({
  /** Copies of each piece; left out: one. */
  copies: v.optional(wholeMeasure('Copies of each', 1, MOST_COPIES)),
  mounted: v.pipe(
    v.array(mountedSchema),
    v.maxLength(MOST_MOUNTED, `At most ${MOST_MOUNTED} mounted pieces.`),
  ),
});
export type PrintRun = v.InferOutput<typeof printRunSchema>;
