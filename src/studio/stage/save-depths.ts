/** The depth of every view as OpenEXR, in one zip that the person saves. */
import { depthOfView } from '../../calls/stage.ts';
import { messageOf } from '../../contract/errors.ts';
import type { SceneFacts } from '../../contract/stage.ts';
import { inFileName } from '../../core/names/in-file-name.ts';
import { zipped } from '../../files/scene-pack.ts';
import { plannedFrame } from '../../job/facts/rig.ts';
import { stageCamera } from '../../job/facts/stage.ts';
import { downloadBlob } from '../keep/download.ts';
import type { Studio } from '../studio.ts';
import { openedScene, viewLook } from './scene.ts';

/** @param onDone told how many views are done. Never rejects. @returns how it ended, as a sentence */
export const saveDepths = async (
  studio: Studio,
  facts: SceneFacts,
  onDone: (done: number) => void,
): Promise<string> => {
  const { document, tasks } = studio;
  const { job, jobId } = document.getState();
  const { stage } = job;
  if (stage === undefined) return '';
  return tasks.run({ kind: 'stageDepths', jobId }, async (signal) => {
    try {
      const scene = await openedScene(studio, stage);
      const files: { path: string; file: Blob }[] = [];
      for (let view = 0; view < job.viewSlots; view += 1) {
        onDone(view);
        const outcome = await depthOfView(
          {
            scene,
            look: viewLook(job, stage, facts, view),
            camera: stageCamera(job, stage, view),
            ...plannedFrame(job),
          },
          signal,
        );
        if (!outcome.done) return 'Stopped: no depth maps were saved.';
        const number = String(view + 1).padStart(String(job.viewSlots).length, '0');
        files.push({ path: `depth_${number}.exr`, file: outcome.value.file });
      }
      downloadBlob(await zipped(files), `${inFileName(job.name, 'scene')} depth.zip`);
      return `${files.length} depth maps saved: depth from the camera, in scene units, channel Z.`;
    } catch (error) {
      return messageOf(error);
    }
  });
};
