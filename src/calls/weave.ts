/** Weaving a sheet, and windows of it, in a pool of workers. */
import type { Outcome } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type { FrameStack, WeaveWorker, WindowRequest, WindowResult } from '../contract/weave.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { SheetInfo } from '../core/encode/row-writer.ts';
import type { GangSpec } from '../core/sheet/gang/gang-spec.ts';
import type { PageSpec } from '../core/sheet/page-spec.ts';
import type { SheetSpec } from '../core/weave/sheet-spec.ts';
import type { BindCall } from './bind.ts';
import { bindFile } from './bind.ts';
import { WorkerPool, poolSize } from './pool.ts';
import { spawnWeaveWorker } from './workers.ts';

/**
 * Woven bytes in a band: large enough that reading its slices costs little beside weaving it, small
 * enough that a stop is heard within a tenth of a second.
 */
const BAND_BYTES = 6 * 2 ** 20;
const CALLS_PER_WORKER = 2;

const pool = new WorkerPool<WeaveWorker>(spawnWeaveWorker, {
  size: poolSize(),
  depth: CALLS_PER_WORKER,
});

export interface SheetRequest {
  readonly sheet: SheetSpec;
  readonly stack: FrameStack;
  /** Left out: the sheet alone. `info` tells the size of what is written. */
  readonly page?: PageSpec;
  readonly fileType: SheetFileType;
  readonly info: SheetInfo;
  /** Woven bytes in a band, about. The sheet's dots do not depend on it. */
  readonly bandBytes?: number;
}

/**
 * Weaves the whole sheet into the sink and closes it. A stop or a failure aborts the sink, so that
 * nothing half written passes for a sheet. Throws StudioError.
 */
export const weaveSheet = (
  { sheet, stack, page, fileType, info, bandBytes = BAND_BYTES }: SheetRequest,
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> =>
  bindFile(
    {
      info,
      fileType,
      bandBytes,
      ahead: pool.size * CALLS_PER_WORKER + 1,
      askRows: (rows, signal) =>
        pool.run(
          (worker, id) =>
            worker.weaveBand({
              ...rows,
              id,
              sheet,
              stack,
              fileType,
              ...(page === undefined ? {} : { page }),
            }),
          signal,
        ),
    },
    sink,
    call,
  );

export interface GangRequest {
  readonly gang: GangSpec;
  /** A print's frames, by its `stack`. */
  readonly stacks: readonly FrameStack[];
  readonly fileType: SheetFileType;
  readonly info: SheetInfo;
  /** Drawn bytes in a band, about. The lens sheet's dots do not depend on it. */
  readonly bandBytes?: number;
}

/** The same for several prints on one lens sheet. */
export const weaveGang = (
  { gang, stacks, fileType, info, bandBytes = BAND_BYTES }: GangRequest,
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> =>
  bindFile(
    {
      info,
      fileType,
      bandBytes,
      ahead: pool.size * CALLS_PER_WORKER + 1,
      askRows: (rows, signal) =>
        pool.run(
          (worker, id) => worker.weaveGangBand({ ...rows, id, gang, stacks, fileType }),
          signal,
        ),
    },
    sink,
    call,
  );

/** Dots of a window of the sheet at 1:1, without weaving the rest. Throws StudioError. */
export const weaveWindow = (
  request: Omit<WindowRequest, 'id'>,
  { signal }: { readonly signal?: AbortSignal } = {},
): Promise<Outcome<WindowResult>> =>
  pool.run((worker, id) => worker.weaveWindow({ ...request, id }), signal);
