/** Looking at frames and preparing them, in a pool of workers. */
import type { Outcome } from '../contract/errors.ts';
import type {
  DecodeOptions,
  FrameFacts,
  FrameWorker,
  PrepareRequest,
  PrepareResult,
} from '../contract/frames.ts';
import { WorkerPool, poolSize } from './pool.ts';
import { readingLimits, runWithin } from './within-time.ts';
import { spawnPictureWorker } from './workers.ts';

/** A decoded frame is large: no more of them at once than this, however many cores there are. */
const MOST_AT_ONCE = 4;
const THUMBNAIL_PX = 320;

const pool = new WorkerPool<FrameWorker>(spawnPictureWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
});

/** Preparing also reduces and softens, over minutes where the sheet is large. */
const PREPARING_TAKES = 10;

interface Stoppable {
  readonly signal?: AbortSignal;
}

/** What a file turns out to be. Queues: call it for all files at once. Throws StudioError. */
export const lookAt = (
  file: Blob,
  name: string,
  options: DecodeOptions,
  { signal }: Stoppable = {},
): Promise<Outcome<FrameFacts>> =>
  runWithin(
    pool,
    (worker, id) => worker.look({ id, file, name, options, thumbnailPx: THUMBNAIL_PX }),
    readingLimits(file, name, signal),
  );

/** A frame reduced for a sheet. Throws StudioError. */
export const prepareFrame = (
  request: Omit<PrepareRequest, 'id'>,
  { signal }: Stoppable = {},
): Promise<Outcome<PrepareResult>> =>
  runWithin(
    pool,
    (worker, id) => worker.prepare({ ...request, id }),
    readingLimits(request.file, request.name, signal, PREPARING_TAKES),
  );
