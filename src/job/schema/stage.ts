/** The 3D scene that the Shoot bench shows and renders, and how it is seen. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

export const stageSchema = openObject({
  /** Id of its file in the frame store. */
  sceneId: v.pipe(v.string(), v.nonEmpty(), v.maxLength(60)),
  sceneName: v.string(),
  /** Equal for files with the same bytes. */
  fingerprint: v.string(),
  /** Middle of the key plane x, y, z in scene units, then the turn of the cameras as a quaternion x, y, z, w. */
  pose: v.array(v.number()),
  /** sRGB, "#rrggbb"; left out: a light grey. */
  ground: v.optional(v.string()),
  /** Left out: 0. */
  stops: v.optional(measure('Light', -12, 12, ' stops')),
  /** Left out: 32. */
  samples: v.optional(wholeMeasure('Samples', 1, 4096)),
  /** Which of its animations is spread over the views; left out: none. */
  clip: v.optional(v.number()),
});
export type StageChoices = v.InferOutput<typeof stageSchema>;
