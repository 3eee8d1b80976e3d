/** Reading a photo of the failed print: from the file to where each view shows. */
import type { MendPhotoAnswer } from '../../contract/photo.ts';
import { seeingOf, setupOf } from '../../job/facts/mend.ts';
import { readPrintPhoto } from '../../calls/photo.ts';
import { documentStore } from '../../state/document.ts';
import type { ReadByHand } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import { createPictureRun } from './picture-run.ts';
import { blurOf, proofSceneOf } from '../proof/proof-scene.ts';

const run = createPictureRun<MendPhotoAnswer>((printPhoto) =>
  workStore.getState().set({ printPhoto }),
);

/** Whether the frames are there to compare the photo with. */
export const canRead = (): boolean => {
  const scene = proofSceneOf(documentStore.getState().job, workStore.getState().prepared);
  return scene.frames.length > 0 && !scene.frames.includes(undefined);
};

export const readPrintFrom = (file: File, byHand: ReadByHand = {}): Promise<void> => {
  const { job } = documentStore.getState();
  const scene = proofSceneOf(job, workStore.getState().prepared);
  const { corners, readAtMm } = byHand;
  return run.start(
    file,
    (call) =>
      readPrintPhoto(
        {
          file,
          name: file.name,
          pictures: scene.frames.filter((frame) => frame !== undefined),
          slots: scene.slots,
          setup: setupOf(seeingOf(job).printed),
          blur: blurOf(job, 0),
          corners,
          cameraMm: readAtMm,
        },
        call,
      ),
    { byHand },
  );
};

export const stopPrintPhoto = (): void => run.stop();
export const putPrintPhotoAway = (): void =>
  workStore.getState().set({ printPhoto: { stage: 'idle' } });
