/** Looking at frames and preparing them, in a pool of workers. */
import type { Outcome, Reply } from '../contract/errors.ts';
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

/** A decoded frame is large: at most this many at once, whatever the number of cores. */
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
    (worker, id) =>
      worker.look({ id, file, name, options, thumbnailPx: THUMBNAIL_PX, keep: false }),
    readingLimits(file, name, signal),
  );

export interface LookedAndPrepared {
  readonly facts: FrameFacts;
  /** Undefined where nothing had to be prepared, or preparing failed: the next attempt reports why. */
  readonly prepared: PrepareResult | undefined;
}

/**
 * Both in one go, so that the file is decoded once. Throws StudioError.
 * @param requestOf what to prepare it for, once its facts are known; undefined: do not prepare it
 */
export const lookAtAndPrepare = (
  file: Blob,
  name: string,
  options: DecodeOptions,
  requestOf: (facts: FrameFacts) => Omit<PrepareRequest, 'id' | 'file' | 'name'> | undefined,
  { signal }: Stoppable = {},
): Promise<Outcome<LookedAndPrepared>> =>
  runWithin(
    pool,
    async (worker, id): Promise<Reply<LookedAndPrepared>> => {
      const look = { id, file, name, options, thumbnailPx: THUMBNAIL_PX, keep: true };
      const looked = await worker.look(look);
      if (looked.kind !== 'done') return looked;
      const facts = looked.value;
      const request = requestOf(facts);
      const reply = request && (await worker.prepare({ ...request, id, file, name }));
      if (reply?.kind === 'stopped') return reply;
      const prepared = reply?.kind === 'done' ? reply.value : undefined;
      return { kind: 'done', value: { facts, prepared } };
    },
    readingLimits(file, name, signal, PREPARING_TAKES),
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
