/** Reading a photo of the strip or a scan of a bare lens: from the file to what it says. */
import type { LensScanAnswer, StripPhotoAnswer } from '../../contract/photo.ts';
import type { Job } from '../../job/schema/job.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { specOfWoven } from '../../job/facts/pitch.ts';
import { lensOf } from '../../job/facts/sheet.ts';
import { readPhoto, readScan } from '../../calls/photo.ts';
import type { ReadByHand } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import { createPictureRun } from './picture-run.ts';

const photoRun = createPictureRun<StripPhotoAnswer>((photo) => workStore.getState().set({ photo }));
const scanRun = createPictureRun<LensScanAnswer>((lensScan) =>
  workStore.getState().set({ lensScan }),
);

export const stripKeyOf = (job: Job, strip: WovenStrip): string =>
  JSON.stringify([specOfWoven(job, strip), lensOf(job)]);

export const readStripFrom = (
  file: File,
  job: Job,
  strip: WovenStrip,
  byHand: ReadByHand = {},
): Promise<void> =>
  photoRun.start(
    file,
    (call) =>
      readPhoto(
        {
          file,
          name: file.name,
          strip: specOfWoven(job, strip),
          lens: lensOf(job),
          ...byHand,
        },
        call,
      ),
    { stripKey: stripKeyOf(job, strip), byHand },
  );

export const readScanFrom = (file: File): Promise<void> =>
  scanRun.start(file, (call) => readScan({ file, name: file.name }, call));

export const stopPhoto = (): void => photoRun.stop();
export const stopScan = (): void => scanRun.stop();
export const putPhotoAway = (): void => workStore.getState().set({ photo: { stage: 'idle' } });
