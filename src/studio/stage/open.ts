/** The job’s scene, opened in its worker, and looks at it. */
import { lookAtStage, openScene } from '../../calls/stage.ts';
import type { FileToRead } from '../../contract/frames.ts';
import type { SceneFacts, StagePicture } from '../../contract/stage.ts';
import type { RigLine } from '../../core/stage/outside.ts';
import type { StageCamera } from '../../core/stage/pose.ts';
import { keyDistanceOf } from '../../job/facts/rig.ts';
import { ribsAtInfinity } from '../../job/facts/stage.ts';
import type { Job } from '../../job/schema/job.ts';
import type { StageChoices } from '../../job/schema/stage.ts';
import type { Studio } from '../studio.ts';
import { openedScene, sceneLook } from './scene.ts';

export interface OpenScene {
  readonly scene: FileToRead;
  readonly facts: SceneFacts;
}

/** Undefined when stopped. Throws StudioError. */
export const openStage = async (
  studio: Studio,
  stage: StageChoices,
  signal: AbortSignal,
): Promise<OpenScene | undefined> => {
  const scene = await openedScene(studio, stage);
  const opened = await openScene(scene, signal);
  return opened.done ? { scene, facts: opened.value } : undefined;
};

export interface Look {
  readonly camera: StageCamera;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly samples: number;
  readonly tinted: boolean;
  /** Of the animation. */
  readonly seconds: number | undefined;
  readonly lines: readonly RigLine[];
}

/** Columns of the depth map that comes with a look. */
const DEPTH_COLUMNS = 160;

/** Undefined when stopped. Throws StudioError. */
export const lookAt = async (
  { scene }: OpenScene,
  job: Job,
  stage: StageChoices,
  { tinted, seconds, ...look }: Look,
  signal?: AbortSignal,
): Promise<StagePicture | undefined> => {
  const tint = { ribsFar: ribsAtInfinity(job), keyDistance: keyDistanceOf(job) };
  const request = {
    ...look,
    scene,
    look: sceneLook(stage, seconds),
    tint: tinted ? tint : undefined,
    depthColumns: DEPTH_COLUMNS,
  };
  const looked = await lookAtStage(request, signal);
  return looked.done ? looked.value : undefined;
};
