/** Binding a file: rows out to the workers, finished bytes back in order, into a sink. */
import type { Outcome } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type { RowRange } from '../contract/weave.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { BandBytes, SheetInfo } from '../core/encode/row-writer.ts';
import { sheetWriters } from '../core/encode/sheet-writers.ts';

/** What is to be bound, and who draws its rows. */
export interface BindRequest {
  readonly info: SheetInfo;
  readonly fileType: SheetFileType;
  /** Drawn bytes in a band, about. */
  readonly bandBytes: number;
  /** How many bands are requested ahead of the one being written. */
  readonly ahead: number;
  readonly askRows: (rows: RowRange, signal: AbortSignal) => Promise<Outcome<BandBytes>>;
}

export interface BindCall {
  readonly signal: AbortSignal;
  /** Rows written so far: never falls. */
  readonly report: (rowsDone: number) => void;
}

const bandsOf = (rows: number, rowsInBand: number): RowRange[] => {
  const bands: RowRange[] = [];
  for (let firstRow = 0; firstRow < rows; firstRow += rowsInBand)
    bands.push({ firstRow, rowCount: Math.min(rowsInBand, rows - firstRow) });
  return bands;
};

/**
 * Writes the whole file into the sink and closes it. A stop or a failure aborts the sink, so that
 * nothing half written is taken for a whole file. Throws StudioError.
 */
export const bindFile = async (
  request: BindRequest,
  sink: Sink,
  { signal, report }: BindCall,
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
    // Bands that are still being drawn are of no use now.
    halt.abort();
    await sink.abort().catch(() => undefined);
    throw error;
  } finally {
    signal.removeEventListener('abort', onStop);
  }
};

/** Writes head, bands in order, tail. Bands are asked for a little ahead of the one being written. */
const bind = async (
  { info, fileType, bandBytes, ahead, askRows }: BindRequest,
  sink: Sink,
  signal: AbortSignal,
  report: (rowsDone: number) => void,
): Promise<Outcome<{ byteLength: number }>> => {
  const rowsInBand = Math.max(1, Math.floor(bandBytes / (info.width * 3)));
  const file = sheetWriters[fileType].open({ info, rowsInBand });
  const bands = bandsOf(info.height, rowsInBand);
  const asked = new Map<number, Promise<Outcome<BandBytes>>>();
  let next = 0;
  const ask = () => {
    const band = bands[next];
    if (band === undefined) return;
    const answer = askRows(band, signal);
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
    const outcome = await (asked.get(index) as Promise<Outcome<BandBytes>>);
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
