/** Weaving a sheet: bands out to the workers, finished bytes back in order, into a sink. */
import type { Outcome } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type {
  BandResult,
  FrameStack,
  RowRange,
  WeaveWorker,
  WindowRequest,
  WindowResult,
} from '../contract/weave.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { SheetInfo } from '../core/encode/row-writer.ts';
import { sheetWriters } from '../core/encode/sheet-writers.ts';
import type { SheetSpec } from '../core/weave/sheet-spec.ts';
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
  readonly fileType: SheetFileType;
  readonly info: SheetInfo;
  /** Woven bytes in a band, about. The sheet's dots do not depend on it. */
  readonly bandBytes?: number;
}

export interface WeaveCall {
  readonly signal: AbortSignal;
  /** Rows written so far: never falls. */
  readonly report: (rowsDone: number) => void;
}

const bandsOf = (sheet: SheetSpec, rowsInBand: number): RowRange[] => {
  const bands: RowRange[] = [];
  for (let firstRow = 0; firstRow < sheet.heightDots; firstRow += rowsInBand)
    bands.push({ firstRow, rowCount: Math.min(rowsInBand, sheet.heightDots - firstRow) });
  return bands;
};

/**
 * Weaves the whole sheet into the sink and closes it. A stop or a failure aborts the sink, so that
 * nothing half written passes for a sheet. Throws StudioError.
 */
export const weaveSheet = async (
  request: SheetRequest,
  sink: Sink,
  { signal, report }: WeaveCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const halt = new AbortController();
  const onStop = () => halt.abort();
  signal.addEventListener('abort', onStop, { once: true });
  if (signal.aborted) halt.abort();
  try {
    const outcome = await bind(request, sink, halt.signal, report);
    if (outcome.done) await sink.close();
    else await sink.abort();
    return outcome;
  } catch (error) {
    // Bands still out there are of no use now.
    halt.abort();
    await sink.abort().catch(() => undefined);
    throw error;
  } finally {
    signal.removeEventListener('abort', onStop);
  }
};

/** Writes head, bands in order, tail. Bands are asked for a little ahead of the one being written. */
const bind = async (
  { sheet, stack, fileType, info, bandBytes = BAND_BYTES }: SheetRequest,
  sink: Sink,
  signal: AbortSignal,
  report: (rowsDone: number) => void,
): Promise<Outcome<{ byteLength: number }>> => {
  const rowsInBand = Math.max(1, Math.floor(bandBytes / (sheet.widthDots * 3)));
  const file = sheetWriters[fileType].open({ info, rowsInBand });
  const bands = bandsOf(sheet, rowsInBand);
  const ahead = pool.size * CALLS_PER_WORKER + 1;
  const asked = new Map<number, Promise<Outcome<BandResult>>>();
  let next = 0;
  const ask = () => {
    const band = bands[next];
    if (band === undefined) return;
    const answer = pool.run(
      (worker, id) => worker.weaveBand({ ...band, id, sheet, stack, fileType }),
      signal,
    );
    answer.catch(() => undefined); // Met again, in order, below.
    asked.set(next, answer);
    next += 1;
  };
  for (let i = 0; i < ahead; i += 1) ask();

  let byteLength = 0;
  const write = async (bytes: Uint8Array<ArrayBuffer>) => {
    await sink.write(bytes);
    byteLength += bytes.length;
  };
  await write(file.head());
  for (const [index, band] of bands.entries()) {
    const outcome = await (asked.get(index) as Promise<Outcome<BandResult>>);
    if (!outcome.done || signal.aborted) return stopped;
    asked.delete(index); // Its bytes are written next and must not be held.
    ask();
    const { bytes, adler32, rawLength } = outcome.value;
    file.took({ byteLength: bytes.length, adler32, rawLength });
    await write(bytes);
    report(band.firstRow + band.rowCount);
  }
  const { bytes, patch } = file.tail();
  await write(bytes);
  if (patch !== undefined) await sink.patch(patch.at, patch.bytes);
  return { done: true, value: { byteLength } };
};

/** Dots of a window of the sheet at 1:1, without weaving the rest. Throws StudioError. */
export const weaveWindow = (
  request: Omit<WindowRequest, 'id'>,
  { signal }: { readonly signal?: AbortSignal } = {},
): Promise<Outcome<WindowResult>> =>
  pool.run((worker, id) => worker.weaveWindow({ ...request, id }), signal);
