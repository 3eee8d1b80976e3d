/** Calls that decode pictures, each begun when there is memory for it. */
import type { Outcome } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import type { FileToRead, FrameWorker } from '../contract/frames.ts';
import { decodeRoom } from './decode-room.ts';
import { WorkerPool, poolSize, readsPictures } from './pool.ts';
import { readingLimits, runWithin } from './within-time.ts';
import { spawnPictureWorker } from './workers.ts';

/** A decoded frame is large, so at most this many are decoded at once. */
const MOST_AT_ONCE = 4;

export const framePool = new WorkerPool<FrameWorker>(spawnPictureWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
  ...readsPictures,
});

export type Picture = Pick<FileToRead, 'file' | 'name'>;

/**
 * Bytes of memory that each picture takes while it is decoded, read from its header by a worker.
 * Throws StudioError where a header cannot be read.
 */
export const weighAll = async (
  pictures: readonly Picture[],
  signal: AbortSignal | undefined,
): Promise<Outcome<number[]>> => {
  const outcomes = await Promise.all(
    pictures.map(({ file, name }) =>
      runWithin(
        framePool,
        (worker, id) => worker.weigh({ id, file, name }),
        readingLimits(file, name, signal),
      ),
    ),
  );
  const weights = outcomes.flatMap((outcome) => (outcome.done ? [outcome.value] : []));
  return weights.length === pictures.length ? { done: true, value: weights } : stopped;
};

/** The same for all of them at once. */
export const weighTogether = async (
  pictures: readonly Picture[],
  signal: AbortSignal | undefined,
): Promise<Outcome<number>> => {
  const weighed = await weighAll(pictures, signal);
  if (!weighed.done) return weighed;
  return { done: true, value: weighed.value.reduce((sum, weight) => sum + weight, 0) };
};

/** Does the work when there is memory for all of these pictures. Throws StudioError. */
export const inDecodeRoom = async <T>(
  pictures: readonly Picture[],
  signal: AbortSignal | undefined,
  work: () => Promise<Outcome<T>>,
): Promise<Outcome<T>> => {
  const weighed = await weighTogether(pictures, signal);
  return weighed.done ? decodeRoom.hold(weighed.value, signal, work) : weighed;
};
