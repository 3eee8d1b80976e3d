/** Looking at frames and preparing them, in a pool of workers. */
import type { Outcome } from '../contract/errors.ts';
import { StudioError } from '../contract/errors.ts';
import type {
  DecodeOptions,
  FrameFacts,
  FrameWorker,
  PrepareRequest,
  PrepareResult,
} from '../contract/frames.ts';
import { WorkerPool, poolSize } from './pool.ts';
import { runWithin } from './within-time.ts';
import { spawnFrameWorker } from './workers.ts';

/** A decoded frame is large: no more of them at once than this, however many cores there are. */
const MOST_AT_ONCE = 4;
const THUMBNAIL_PX = 320;

const pool = new WorkerPool<FrameWorker>(spawnFrameWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
});

/** Many times what reading the largest picture takes on a slow machine. */
const mostMsFor = (file: Blob): number => 45_000 + (2000 * file.size) / 2 ** 20;
/** Preparing also reduces and softens, over minutes where the sheet is large. */
const PREPARING_TAKES = 10;

const limitsFor = (file: Blob, name: string, signal: AbortSignal | undefined, times = 1) => ({
  signal,
  mostMs: times * mostMsFor(file),
  tooLong: () =>
    new StudioError(
      'damaged',
      `"${name}" could not be read within ${Math.round((times * mostMsFor(file)) / 1000)} seconds and was given up: it is most likely damaged. Copy it again from where it was made, or render that frame again.`,
      name,
    ),
});

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
    limitsFor(file, name, signal),
  );

/** A frame reduced for a sheet. Throws StudioError. */
export const prepareFrame = (
  request: Omit<PrepareRequest, 'id'>,
  { signal }: Stoppable = {},
): Promise<Outcome<PrepareResult>> =>
  runWithin(
    pool,
    (worker, id) => worker.prepare({ ...request, id }),
    limitsFor(request.file, request.name, signal, PREPARING_TAKES),
  );
