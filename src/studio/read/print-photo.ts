/** Reads from a photo of the failed print where each view shows. */
import { readPrintPhoto } from '../../calls/photo.ts';
import { blurOf } from '../../job/facts/eye.ts';
import { seeingOf, setupOf } from '../../job/facts/mend.ts';
import type { ReadByHand } from '../../state/tasks.ts';
import type { Floor } from '../floor.ts';
import { proofSceneOf } from '../proof/proof-scene.ts';
import { readPicture } from './picture-run.ts';

const sceneNow = ({ document, work }: Floor) =>
  proofSceneOf(document.getState().job, work.getState().prepared);

/** Whether the frames are there to compare the photo with. */
export const canRead = (floor: Floor): boolean => {
  const { frames } = sceneNow(floor);
  return frames.length > 0 && !frames.includes(undefined);
};

export const readPrintFrom = (floor: Floor, file: File, byHand: ReadByHand = {}): Promise<void> => {
  const { job } = floor.document.getState();
  const { frames, slots } = sceneNow(floor);
  const request = {
    file,
    name: file.name,
    pictures: frames.filter((frame) => frame !== undefined),
    slots,
    setup: setupOf(seeingOf(job).printed),
    blur: blurOf(job, 0),
    corners: byHand.corners,
    cameraMm: byHand.readAtMm,
  };
  return readPicture(floor, 'printPhoto', file, (call) => readPrintPhoto(request, call), {
    byHand,
  });
};
