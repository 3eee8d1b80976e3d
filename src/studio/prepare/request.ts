/** What a frame worker is asked for one picture of a job. */
import type { PrepareRequest } from '../../contract/frames.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import { softeningOf } from '../../job/facts/soften.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import { alongSamplesOf } from './stack.ts';

/** @throws StudioError `file-gone` */
export const prepareRequestOf = async (
  { work, disk }: Floor,
  job: Job,
  { frame, area, ground }: SlotPicture,
  proofPx: number,
): Promise<Omit<PrepareRequest, 'id'>> => {
  const softening =
    ground === undefined ? softeningOf(job, work.getState().wholeParallax, frame) : undefined;
  return {
    ...(softening === undefined ? {} : { softening }),
    file: await disk.frames.open(frame.id, frame.name),
    name: frame.name,
    // A title is no light of the scene: its white stays white.
    options: { exposureStops: ground === undefined ? job.exposureStops : 0 },
    ...(ground === undefined ? {} : { ground }),
    sheet: sheetSpecOf(job),
    area,
    alongSamples: alongSamplesOf(job),
    proofPx,
  };
};
