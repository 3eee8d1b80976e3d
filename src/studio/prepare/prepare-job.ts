/** Frames prepared for a sheet beside the one on the bench, such as a gang's: for one weave, then let go. */
import type { PreparedFrame } from '../../contract/frames.ts';
import type { FrameStack } from '../../contract/weave.ts';
import type { Outcome } from '../../contract/errors.ts';
import { stopped } from '../../contract/errors.ts';
import { removePrepared } from '../../files/sweep.ts';
import type { Job } from '../../job/schema/job.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import { prepareFrame } from '../../calls/frames.ts';
import { prepareRequestOf, stackWith } from './keep-prepared.ts';

export interface PreparedJob {
  readonly stack: FrameStack;
  /** Gives the disk back: once nothing is woven from it any more. */
  letGo(): void;
}

/** Names on the private disk of what is prepared here and not yet let go. */
const held = new Set<string>();
export const heldOnDisk = (): ReadonlySet<string> => held;

const letGoOf = (frames: readonly PreparedFrame[]): void => {
  for (const { diskName } of frames) {
    if (diskName === undefined) continue;
    held.delete(diskName);
    removePrepared(diskName).catch(() => undefined);
  }
};

/** @throws StudioError when a frame cannot be read; nothing is then left on the disk. */
export const prepareJob = async (job: Job, signal: AbortSignal): Promise<Outcome<PreparedJob>> => {
  const { pictures } = slotPicturesOf(job);
  const halt = new AbortController();
  const onStop = () => halt.abort();
  signal.addEventListener('abort', onStop, { once: true });
  if (signal.aborted) halt.abort();
  const done: PreparedFrame[] = [];
  const endings = await Promise.allSettled(
    pictures
      .map(async (picture) => {
        const request = await prepareRequestOf(job, picture, 0);
        const outcome = await prepareFrame(request, { signal: halt.signal });
        if (!outcome.done) return undefined;
        const { frame } = outcome.value;
        if (frame.diskName !== undefined) held.add(frame.diskName);
        done.push(frame);
        return frame;
      })
      .map((one) =>
        one.catch((error: unknown) => {
          // The others would be prepared for nothing.
          halt.abort();
          throw error;
        }),
      ),
  );
  signal.removeEventListener('abort', onStop);
  const failed = endings.find((ending) => ending.status === 'rejected');
  const frames = endings.flatMap((ending) =>
    ending.status === 'fulfilled' && ending.value !== undefined ? [ending.value] : [],
  );
  if (failed === undefined && frames.length === pictures.length)
    return {
      done: true,
      value: {
        stack: stackWith(job, frames),
        letGo: () => letGoOf(frames),
      },
    };
  letGoOf(done);
  if (failed !== undefined && !signal.aborted) throw failed.reason;
  return stopped;
};
