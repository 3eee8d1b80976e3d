/** The job’s scene as it is handed to its worker, and how it looks in each view. */
import type { FileToRead } from '../../contract/frames.ts';
import type { SceneFacts, SceneLook } from '../../contract/stage.ts';
import { stemOf } from '../../core/frames/order.ts';
import { groundOf, secondsAt } from '../../job/facts/stage.ts';
import type { Job } from '../../job/schema/job.ts';
import type { StageChoices } from '../../job/schema/stage.ts';
import type { Studio } from '../studio.ts';

/** Rejects where its file is gone. */
export const openedScene = async (
  { disk }: Studio,
  { sceneId, sceneName }: StageChoices,
): Promise<FileToRead> => ({
  key: sceneId,
  name: sceneName,
  file: await disk.frames.open(sceneId, sceneName),
});

/** "kiosk" of "kiosk.glb" and of "kiosk.gltf.zip". */
export const sceneStem = (name: string): string => stemOf(name.replace(/\.zip$/i, ''));

/** @param seconds of its animation; left out: it stands still */
export const sceneLook = (stage: StageChoices, seconds?: number): SceneLook => ({
  ground: groundOf(stage),
  stops: stage.stops ?? 0,
  moment:
    stage.clip === undefined || seconds === undefined ? undefined : { clip: stage.clip, seconds },
});

/** When the animation stands in a view; undefined where none is spread over the views. */
export const secondsOfView = (
  { viewSlots }: Job,
  { clip }: StageChoices,
  { clips }: SceneFacts,
  view: number,
): number | undefined => {
  const seconds = clips[clip ?? -1]?.seconds;
  return seconds === undefined ? undefined : secondsAt(view, viewSlots, seconds);
};

export const viewLook = (
  job: Job,
  stage: StageChoices,
  facts: SceneFacts,
  view: number,
): SceneLook => sceneLook(stage, secondsOfView(job, stage, facts, view));
