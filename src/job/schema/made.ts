/** What a job keeps of a frame that was made from others, or rendered from a scene. */
import * as v from 'valibot';
import { openObject } from './open-object.ts';

export const madeSchema = openObject({
  /** Names of its sources: a picture and its depth map, two neighbours, or a scene. */
  from: v.array(v.string()),
  way: v.picklist(['depth', 'between', 'stage']),
  /** Place in the set that was made, from 1, and how many the set has. */
  place: v.number(),
  count: v.number(),
  /** Share of its pixels that were filled because its sources do not show them, 0 … 1. */
  invented: v.number(),
  /** Id of a small grey picture of the filled places in the frame store. Left out if none was kept. */
  holesId: v.optional(v.pipe(v.string(), v.nonEmpty(), v.maxLength(60))),
  /** Of a rendered view: what it depends on (src/job/facts/stage.ts). */
  key: v.optional(v.string()),
});
export type Made = v.InferOutput<typeof madeSchema>;
