/** Reads a photo of the strip or a scan of a bare lens. */
import { readPhoto, readScan } from '../../calls/photo.ts';
import { specOfWoven } from '../../job/facts/pitch.ts';
import { lensOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import type { ReadByHand } from '../../state/tasks.ts';
import type { Floor } from '../floor.ts';
import { readPicture } from './picture-run.ts';

/** Equal keys: the same strip under the same lens, so that a reading is still valid. */
export const stripKeyOf = (job: Job, strip: WovenStrip): string =>
  JSON.stringify([specOfWoven(job, strip), lensOf(job)]);

export const readStripFrom = (
  floor: Floor,
  file: File,
  woven: WovenStrip,
  byHand: ReadByHand = {},
): Promise<void> => {
  const { job } = floor.document.getState();
  const request = { file, name: file.name, strip: specOfWoven(job, woven), lens: lensOf(job) };
  return readPicture(
    floor,
    'stripPhoto',
    file,
    (call) => readPhoto({ ...request, ...byHand }, call),
    { stripKey: stripKeyOf(job, woven), byHand },
  );
};

export const readScanFrom = (floor: Floor, file: File): Promise<void> =>
  readPicture(floor, 'lensScan', file, (call) => readScan({ file, name: file.name }, call));
