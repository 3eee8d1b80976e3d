/** Looks at frames and prepares them, in a pool of workers. */
import type { Outcome, Reply } from '../contract/errors.ts';
import type {
  DecodeOptions,
  FrameFacts,
  PrepareRequest,
  PrepareResult,
} from '../contract/frames.ts';
import { framePool, inDecodeRoom } from './in-decode-room.ts';
import { readingLimits, runWithin } from './within-time.ts';

const THUMBNAIL_PX = 320;

/** Preparing also reduces and softens, which takes minutes for a large sheet. */
const PREPARING_TAKES = 10;

interface Stoppable {
  readonly signal?: AbortSignal;
}

interface Look extends Stoppable {
  /** Longest side of the small picture; left out: as for lists. */
  readonly px?: number;
}

/** Decodes a file and describes it. Calls queue, so call it for all files at once. Throws StudioError. */
export const lookAt = (
  file: Blob,
  name: string,
  options: DecodeOptions,
  { signal, px = THUMBNAIL_PX }: Look = {},
): Promise<Outcome<FrameFacts>> =>
  inDecodeRoom([{ file, name }], signal, () =>
    runWithin(
      framePool,
      (worker, id) => worker.look({ id, file, name, options, thumbnailPx: px, keep: false }),
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
  inDecodeRoom([{ file, name }], signal, () =>
    runWithin(
      framePool,
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
  inDecodeRoom([request], signal, () =>
    runWithin(
      framePool,
      (worker, id) => worker.prepare({ ...request, id }),
      readingLimits(request.file, request.name, signal, PREPARING_TAKES),
    ),
  );
