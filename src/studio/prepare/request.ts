/** The request to a frame worker for one picture of a job. */
import type { PrepareRequest } from '../../contract/frames.ts';
import { gainsOf } from '../../core/colour/picture-light.ts';
import { easeOf } from '../../job/facts/ghost-ease.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import { softeningOf } from '../../job/facts/soften.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import { alongSamplesOf } from './stack.ts';

type Request = Omit<PrepareRequest, 'id'>;

/** All but the file itself. */
export const settingOf = (
  { work }: Floor,
  job: Job,
  { frame, area, ground }: SlotPicture,
  proofPx: number,
): Omit<Request, 'file' | 'name'> => {
  const softening =
    ground === undefined ? softeningOf(job, work.getState().wholeParallax, frame) : undefined;
  const ease = ground === undefined ? easeOf(job, frame.id) : undefined;
  return {
    ...(softening === undefined ? {} : { softening }),
    ...(ease === undefined ? {} : { ease }),
    // A title has no exposure: its white stays white.
    options: {
      exposureStops: ground === undefined ? job.exposureStops : 0,
      ...(frame.light === undefined || ground !== undefined ? {} : { gains: gainsOf(frame.light) }),
    },
    ...(ground === undefined ? {} : { ground }),
    sheet: sheetSpecOf(job),
    area,
    alongSamples: alongSamplesOf(job),
    proofPx,
  };
};

/** @throws StudioError `file-gone` */
export const prepareRequestOf = async (
  floor: Floor,
  job: Job,
  picture: SlotPicture,
  proofPx: number,
): Promise<Request> => {
  const { id, name } = picture.frame;
  const file = await floor.disk.frames.open(id, name);
  return { ...settingOf(floor, job, picture, proofPx), file, name };
};
