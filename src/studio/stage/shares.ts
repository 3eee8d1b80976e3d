/** How much of a picture the lens holds, by its depths. */
import type { StageDepths } from '../../contract/stage.ts';
import { SHARP_LENTICULES, SOFT_LENTICULES } from '../../core/plan/depth.ts';
import { keyDistanceOf } from '../../job/facts/rig.ts';
import { ribsAtInfinity } from '../../job/facts/stage.ts';
import type { Job } from '../../job/schema/job.ts';

export interface DepthShares {
  readonly sharp: number;
  readonly soft: number;
  readonly broken: number;
}

/** Undefined where nothing is seen. */
export const depthShares = (job: Job, { values }: StageDepths): DepthShares | undefined => {
  const [ribs, key] = [ribsAtInfinity(job), keyDistanceOf(job)];
  let [sharp, soft, broken] = [0, 0, 0];
  for (const away of values) {
    if (away === Infinity) continue;
    const moves = Math.abs((ribs * (away - key)) / away);
    if (moves <= SHARP_LENTICULES) sharp += 1;
    else if (moves <= SOFT_LENTICULES) soft += 1;
    else broken += 1;
  }
  const all = sharp + soft + broken;
  return all === 0 ? undefined : { sharp: sharp / all, soft: soft / all, broken: broken / all };
};
