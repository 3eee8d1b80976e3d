/** Looks at frames and prepares them, in a pool of workers. */
import type { Outcome, Reply } from '../contract/errors.ts';
import type {
  DecodeOptions,
  FrameFacts,
  FrameWorker,
  PrepareRequest,
  PrepareResult,
} from '../contract/frames.ts';
import { decodeRoom } from './decode-room.ts';
import { WorkerPool, poolSize, readsPictures } from './pool.ts';
import { readingLimits, runWithin } from './within-time.ts';
import { spawnPictureWorker } from './workers.ts';

/** A decoded frame is large, so at most this many are decoded at once. */
const MOST_AT_ONCE = 4;
const THUMBNAIL_PX = 320;

const pool = new WorkerPool<FrameWorker>(spawnPictureWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
  ...readsPictures,
});

/** Preparing also reduces and softens, which takes minutes for a large sheet. */
const PREPARING_TAKES = 10;

interface Stoppable {
  readonly signal?: AbortSignal;
}

/** Asks a worker what decoding the file takes, then does the work when there is room for that. */
const inDecodeRoom = async <T>(
  file: Blob,
  name: string,
  signal: AbortSignal | undefined,
  work: () => Promise<Outcome<T>>,
): Promise<Outcome<T>> => {
  const weighed = await runWithin(
    pool,
    (worker, id) => worker.weigh({ id, file, name }),
    readingLimits(file, name, signal),
  );
  return weighed.done ? decodeRoom.hold(weighed.value, signal, work) : weighed;
};

/** Decodes a file and describes it. Calls queue, so call it for all files at once. Throws StudioError. */
export const lookAt = (
  file: Blob,
  name: string,
  options: DecodeOptions,
  { signal }: Stoppable = {},
): Promise<Outcome<FrameFacts>> =>
  inDecodeRoom(file, name, signal, () =>
    runWithin(
      pool,
      (worker, id) =>
        worker.look({ id, file, name, options, thumbnailPx: THUMBNAIL_PX, keep: false }),
      readingLimits(file, name, signal),
    ),
  );

export interface LookedAndPrepared {
  readonly facts: FrameFacts;
  /** Undefined where nothing had to be prepared, or preparing failed: the next attempt reports why. */
  readonly prepared: PrepareResult | undefined;
}

/**
 * Both in one call, so that the file is decoded once. Throws StudioError.
 * @param requestOf what to prepare the frame for, once its facts are known; undefined: do not prepare it
 */
export const lookAtAndPrepare = (
  file: Blob,
  name: string,
  options: DecodeOptions,
  requestOf: (facts: FrameFacts) => Omit<PrepareRequest, 'id' | 'file' | 'name'> | undefined,
  { signal }: Stoppable = {},
): Promise<Outcome<LookedAndPrepared>> =>
  inDecodeRoom(file, name, signal, () =>
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
    ),
  );

/** Reduces a frame for a sheet. Throws StudioError. */
export const prepareFrame = (
  request: Omit<PrepareRequest, 'id'>,
  { signal }: Stoppable = {},
): Promise<Outcome<PrepareResult>> =>
  inDecodeRoom(request.file, request.name, signal, () =>
    runWithin(
      pool,
      (worker, id) => worker.prepare({ ...request, id }),
      readingLimits(request.file, request.name, signal, PREPARING_TAKES),
    ),
  );
