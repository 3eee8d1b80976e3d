/** What a job keeps of a frame that was made from others. */
import * as v from 'valibot';
import { openObject } from './open-object.ts';

export const madeSchema = openObject({
  /** Names of what it was made from: a picture and its depth map, or two neighbours. */
  from: v.array(v.string()),
  way: v.picklist(['depth', 'between']),
  /** Place in the set that was made, from 1, and how many the set has. */
  place: v.number(),
  count: v.number(),
  /** Share of its pixels that were filled because nothing showed what lies there, 0 … 1. */
  invented: v.number(),
  /**
   * A small grey picture of where those lie, in the frame store. Left out where it was not kept, as in
   * frames of before it was.
   */
  holesId: v.optional(v.pipe(v.string(), v.nonEmpty(), v.maxLength(60))),
});
export type Made = v.InferOutput<typeof madeSchema>;
