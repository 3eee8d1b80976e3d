/** Prepares the pictures of the open job. New ones are shown one by one, replaced ones all at once. */
import { prepareFrame } from '../../calls/frames.ts';
import { toWorkError } from '../../contract/errors.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Prepared } from '../../state/work.ts';
import type { Floor } from '../floor.ts';
import { originalLost } from '../frames/original-lost.ts';
import { prepareRequestOf } from './request.ts';
import type { Retirement } from './retirement.ts';
import { keyMaker } from './stack.ts';

/** Longest side of a picture for the tilt proof. */
export const PROOF_PX = 1024;

export interface PictureRun {
  readonly floor: Floor;
  readonly retirement: Retirement;
  /** As it was when the run began. */
  readonly job: Job;
  readonly signal: AbortSignal;
}

/** Stores prepared pictures in place of those before. */
export const publish = (
  { work }: Floor,
  { retire }: Retirement,
  entries: ReadonlyMap<string, Prepared>,
): void => {
  const next = new Map(work.getState().prepared);
  for (const [id, entry] of entries) {
    const before = next.get(id);
    if (before !== undefined) retire(before.frame);
    next.set(id, entry);
  }
  work.setState({ prepared: next });
};

/** Retires prepared pictures that fill no slot any more. */
export const prune = (
  { work }: Floor,
  { retire }: Retirement,
  needed: readonly SlotPicture[],
): void => {
  const ids = new Set(needed.map(({ id }) => id));
  const { prepared } = work.getState();
  const gone = [...prepared].filter(([id]) => !ids.has(id));
  if (gone.length === 0) return;
  for (const [, { frame }] of gone) retire(frame);
  work.setState({ prepared: new Map([...prepared].filter(([id]) => ids.has(id))) });
};

const prepareOne = async (
  run: PictureRun,
  picture: SlotPicture,
  keep: (entry: Prepared) => void,
): Promise<void> => {
  const { floor, retirement, job, signal } = run;
  const { work, disk } = floor;
  const { frame } = picture;
  let read: Blob | undefined;
  try {
    const key = keyMaker(job, work.getState().wholeParallax)(picture);
    const request = await prepareRequestOf(floor, job, picture, PROOF_PX);
    read = request.file;
    const outcome = await prepareFrame(request, { signal });
    if (!outcome.done) return;
    const { frame: pixels, proof } = outcome.value;
    if (signal.aborted) return retirement.retire(pixels);
    keep({ key, frame: pixels, proof });
  } catch (error) {
    if (signal.aborted) return;
    const { code, message } = toWorkError(error);
    const now = disk.frames.fileOf(frame.id);
    // The original was added again while the lost one was being read.
    if (code === 'file-gone' && read !== undefined && now !== undefined && now !== read)
      return prepareOne(run, picture, keep);
    if (code === 'file-gone') originalLost(floor, frame.id);
    const { prepareFaults } = work.getState();
    work.setState({ prepareFaults: new Map(prepareFaults).set(frame.id, message) });
  }
  const { preparing } = work.getState();
  if (preparing !== undefined)
    work.setState({ preparing: { ...preparing, done: preparing.done + 1 } });
};

/** Prepares these pictures of the job and reports the progress. */
export const preparePictures = async (
  run: PictureRun,
  missing: readonly SlotPicture[],
): Promise<void> => {
  const { floor, retirement, signal } = run;
  const { work } = floor;
  const had = work.getState().prepared;
  work.setState({ preparing: { done: 0, total: missing.length }, prepareFaults: new Map() });
  // Renewed pictures are replaced all at once, so that the proof never mixes two sheets.
  const renewed = new Map<string, Prepared>();
  await Promise.all(
    missing.map((picture) =>
      prepareOne(run, picture, (entry) => {
        if (had.has(picture.id)) renewed.set(picture.id, entry);
        else publish(floor, retirement, new Map([[picture.id, entry]]));
      }),
    ),
  );
  if (!signal.aborted) return publish(floor, retirement, renewed);
  for (const { frame } of renewed.values()) retirement.retire(frame);
};
