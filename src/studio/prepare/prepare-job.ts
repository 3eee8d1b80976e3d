/** Prepares the frames of a job for one file only, such as those of another print on the lens sheet. */
import { prepareFrame } from '../../calls/frames.ts';
import type { Outcome } from '../../contract/errors.ts';
import { stopped } from '../../contract/errors.ts';
import type { PreparedFrame } from '../../contract/frames.ts';
import type { FrameStack } from '../../contract/weave.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { prepareRequestOf } from './request.ts';
import { stackWith } from './stack.ts';

export interface PreparedJob {
  readonly stack: FrameStack;
  /** Frees the disk space; call it once the file is woven. */
  readonly letGo: () => void;
}

/** @throws StudioError if a frame cannot be read; nothing then stays on the disk. */
export const prepareJob = async (
  studio: Studio,
  job: Job,
  signal: AbortSignal,
): Promise<Outcome<PreparedJob>> => {
  const { pictures } = slotPicturesOf(job);
  // One failure stops the others, which are useless without it.
  const halt = new AbortController();
  const both = AbortSignal.any([signal, halt.signal]);
  const letGo: (() => void)[] = [];
  const prepareOne = async (picture: SlotPicture): Promise<PreparedFrame | undefined> => {
    try {
      const request = await prepareRequestOf(studio, job, picture, 0);
      const outcome = await prepareFrame(request, { signal: both });
      if (!outcome.done) return undefined;
      const { frame } = outcome.value;
      letGo.push(studio.preparing.hold([frame]));
      return frame;
    } catch (error) {
      halt.abort();
      throw error;
    }
  };
  const letGoOfAll = () => {
    for (const one of letGo) one();
  };
  const endings = await Promise.allSettled(pictures.map(prepareOne));
  const failed = endings.find((ending) => ending.status === 'rejected');
  const frames = endings.flatMap((ending) =>
    ending.status === 'fulfilled' && ending.value !== undefined ? [ending.value] : [],
  );
  if (failed === undefined && frames.length === pictures.length)
    return { done: true, value: { stack: stackWith(job, frames), letGo: letGoOfAll } };
  letGoOfAll();
  if (failed !== undefined && !signal.aborted) throw failed.reason;
  return stopped;
};
