/** The nearest and the farthest that the rig’s cameras really see. */
import { lookAtStage } from '../../calls/stage.ts';
import type { FileToRead } from '../../contract/frames.ts';
import type { StageDepths } from '../../contract/stage.ts';
import { keyDistanceOf, plannedFrame, setRig } from '../../job/facts/rig.ts';
import { rigOnStage, stageCamera } from '../../job/facts/stage.ts';
import type { Job } from '../../job/schema/job.ts';
import { sceneLook } from './scene.ts';

/** Width of the pictures that are looked through for it. */
const LOOK_PX = 200;

export interface Reach {
  /** Distances from the cameras, scene units. */
  readonly nearest: number;
  readonly farthest: number;
}

export const reachOf = ({ values }: StageDepths): Reach | undefined => {
  let [nearest, farthest] = [Infinity, -Infinity];
  for (const away of values) {
    if (away === Infinity) continue;
    nearest = Math.min(nearest, away);
    farthest = Math.max(farthest, away);
  }
  return farthest > 0 ? { nearest, farthest } : undefined;
};

const lookSize = (job: Job, widthPx: number) => {
  const planned = plannedFrame(job);
  return {
    widthPx,
    heightPx: Math.max(1, Math.round((widthPx * planned.heightPx) / planned.widthPx)),
  };
};

const rounded = (value: number): number => Number(value.toPrecision(4));

/** As the job keeps it: so far in front of the key plane, so far behind it. */
export const reachInRig = (job: Job, { nearest, farthest }: Reach) => {
  const key = keyDistanceOf(job);
  return { near: rounded(Math.max(0, key - nearest)), far: rounded(Math.max(0, farthest - key)) };
};

/** Through both ends of the row and its middle. Undefined when stopped. Throws StudioError. */
export const withReach = async (
  job: Job,
  scene: FileToRead,
  signal: AbortSignal,
): Promise<Job | undefined> => {
  const { stage } = job;
  if (stage === undefined) return job;
  const last = rigOnStage(job).cameras.length - 1;
  let reach: Reach | undefined;
  for (const view of [0, undefined, last]) {
    const looked = await lookAtStage(
      {
        scene,
        look: sceneLook(stage, 0),
        camera: stageCamera(job, stage, view),
        ...lookSize(job, LOOK_PX),
        samples: 1,
        tint: undefined,
        lines: [],
        depthColumns: LOOK_PX,
      },
      signal,
    );
    if (!looked.done) return undefined;
    looked.value.picture.close();
    const seen = reachOf(looked.value.depths);
    if (seen === undefined) continue;
    reach = {
      nearest: Math.min(seen.nearest, reach?.nearest ?? Infinity),
      farthest: Math.max(seen.farthest, reach?.farthest ?? 0),
    };
  }
  return reach === undefined ? job : setRig(job, reachInRig(job, reach));
};
