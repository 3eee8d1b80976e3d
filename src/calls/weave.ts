/** Weaves sheets into files, and windows of a sheet, in a pool of workers. */
import type { Outcome } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type { FrameStack, WeaveWorker, WindowRequest, WindowResult } from '../contract/weave.ts';
import type { GangSpec } from '../core/sheet/gang/gang-spec.ts';
import type { PageSpec } from '../core/sheet/page-spec.ts';
import type { SheetSpec } from '../core/weave/sheet-spec.ts';
import type { BindCall, FileToBind } from './bind.ts';
import { CALLS_PER_WORKER, bindFile } from './bind.ts';
import { WorkerPool, poolSize } from './pool.ts';
import { spawnWeaveWorker } from './workers.ts';

const pool = new WorkerPool<WeaveWorker>(spawnWeaveWorker, {
  size: poolSize(),
  depth: CALLS_PER_WORKER,
});

export interface SheetRequest extends FileToBind {
  readonly sheet: SheetSpec;
  readonly stack: FrameStack;
  /** Left out: the sheet alone. `info` gives the size of what is written. */
  readonly page?: PageSpec;
}

/** As `bindFile`. */
export const weaveSheet = (
  { sheet, stack, page, ...file }: SheetRequest,
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const woven = { sheet, stack, ...(page && { page }) };
  return bindFile(
    pool,
    (worker, band) => worker.weaveBand({ ...band, ...woven }),
    file,
    sink,
    call,
  );
};

export interface GangRequest extends FileToBind {
  readonly gang: GangSpec;
  /** The frames of the prints; a print's `stack` is the index here. */
  readonly stacks: readonly FrameStack[];
}

/** The same for several prints on one lens sheet. */
export const weaveGang = (
  { gang, stacks, ...file }: GangRequest,
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const woven = { gang, stacks };
  return bindFile(
    pool,
    (worker, band) => worker.weaveGangBand({ ...band, ...woven }),
    file,
    sink,
    call,
  );
};

/** Dots of a window of the sheet at 1:1, without weaving the rest. Throws StudioError. */
export const weaveWindow = (
  request: Omit<WindowRequest, 'id'>,
  { signal }: { readonly signal?: AbortSignal } = {},
): Promise<Outcome<WindowResult>> =>
  pool.run((worker, id) => worker.weaveWindow({ ...request, id }), signal);
