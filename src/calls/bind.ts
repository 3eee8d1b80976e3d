/** Writes a file whose rows workers draw: asks for bands, and puts their bytes into the sink in order. */
import type { Remote } from 'comlink';
import type { TableBlob } from '../contract/colour.ts';
import type { Outcome, Reply } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type { BandFile, RowRange } from '../contract/weave.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { BandBytes, SheetInfo } from '../core/encode/row-writer.ts';
import { channelsOf, factsOf } from '../core/encode/row-writer.ts';
import { sheetWriters } from '../core/encode/sheet-writers.ts';
import { mirroredBox } from '../core/sheet/mirrored.ts';
import type { WorkerPool } from './pool.ts';

export interface FileToBind {
  readonly info: SheetInfo;
  readonly fileType: SheetFileType;
  /** Drawn bytes in a band, about. The file's dots do not depend on it. */
  readonly bandBytes?: number;
  /** What `info.colour` names, as a table; left out: the dots are sRGB. */
  readonly convert?: TableBlob;
}

interface BindRequest extends Required<Omit<FileToBind, 'convert'>> {
  /** How many bands are requested ahead of the one being written. */
  readonly ahead: number;
  readonly askRows: (rows: RowRange, signal: AbortSignal) => Promise<Outcome<BandBytes>>;
}

export interface BindCall {
  readonly signal: AbortSignal;
  /** Rows written so far: never falls. */
  readonly report: (rowsDone: number) => void;
}

/** Each worker draws one band while it reads what the next one needs. */
export const CALLS_PER_WORKER = 2;

/**
 * The default size of a band: reading its slices costs little beside weaving it, and a stop is noticed
 * within a tenth of a second.
 */
const BAND_BYTES = 6 * 2 ** 20;

const bandsOf = (rows: number, rowsInBand: number): RowRange[] => {
  const bands: RowRange[] = [];
  for (let firstRow = 0; firstRow < rows; firstRow += rowsInBand)
    bands.push({ firstRow, rowCount: Math.min(rowsInBand, rows - firstRow) });
  return bands;
};

/** The edges of cut and bleed as they lie in a mirrored file. */
const mirroredInfo = ({ trim, bleed, ...info }: SheetInfo): SheetInfo => ({
  ...info,
  ...(trim && { trim: mirroredBox(trim, info.width) }),
  ...(bleed && { bleed: mirroredBox(bleed, info.width) }),
});

/** Asks a worker for a band of rows. */
type Draw<W> = (
  worker: Remote<W>,
  band: RowRange & BandFile & { readonly id: string },
) => Promise<Reply<BandBytes>>;

/**
 * Writes the whole file into the sink and closes it. A stop or a failure aborts the sink, so that nothing
 * half written passes for a whole file. Throws StudioError.
 */
export const bindFile = async <W extends { cancel(id: string): void }>(
  pool: WorkerPool<W>,
  draw: Draw<W>,
  { info, fileType, convert, bandBytes = BAND_BYTES }: FileToBind,
  sink: Sink,
  { signal, report }: BindCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const halt = new AbortController();
  const file: BandFile = {
    fileType,
    ...(info.mirrored && { mirrored: true }),
    ...(convert && { convert }),
  };
  const request: BindRequest = {
    info: info.mirrored ? mirroredInfo(info) : info,
    fileType,
    bandBytes,
    ahead: pool.size * CALLS_PER_WORKER + 1,
    askRows: (rows, stop) => pool.run((worker, id) => draw(worker, { ...rows, ...file, id }), stop),
  };
  try {
    const outcome = await bind(request, sink, AbortSignal.any([signal, halt.signal]), report);
    if (outcome.done) await sink.close();
    else await sink.abort();
    return outcome;
  } catch (error) {
    // Stop the bands that are still being drawn.
    halt.abort();
    await sink.abort().catch(() => undefined);
    throw error;
  }
};

/** Writes head, bands in order after those that the sink has, tail. */
const bind = async (
  { info, fileType, bandBytes, ahead, askRows }: BindRequest,
  sink: Sink,
  signal: AbortSignal,
  report: (rowsDone: number) => void,
): Promise<Outcome<{ byteLength: number }>> => {
  const writer = sheetWriters[fileType];
  const step = writer.bandStep(info.width, channelsOf(info));
  const rowsInBand = step * Math.max(1, Math.floor(bandBytes / (info.width * 3 * step)));
  const file = writer.open({ info, rowsInBand });
  const bands = bandsOf(info.height, rowsInBand);
  const begun = sink.begun ?? [];
  const asked = new Map<number, Promise<Outcome<BandBytes>>>();
  let next = begun.length;
  const ask = () => {
    const band = bands[next];
    if (band === undefined) return;
    const answer = askRows(band, signal);
    answer.catch(() => undefined); // It is awaited, in order, below.
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
  for (const facts of begun) {
    file.took(facts);
    byteLength += facts.byteLength;
  }
  for (const [index, band] of bands.entries()) {
    if (index < begun.length) {
      // Once, so that the time that is left is judged by what is woven now.
      if (index === begun.length - 1) report(band.firstRow + band.rowCount);
      continue;
    }
    const outcome = await (asked.get(index) as Promise<Outcome<BandBytes>>);
    if (!outcome.done || signal.aborted) return stopped;
    asked.delete(index); // Frees its bytes once they are written.
    ask();
    const facts = factsOf(outcome.value);
    file.took(facts);
    await (sink.writeBand?.(outcome.value, band.rowCount) ?? sink.write(outcome.value.bytes));
    byteLength += facts.byteLength;
    report(band.firstRow + band.rowCount);
  }
  const { bytes, patch } = file.tail();
  await write(bytes);
  if (patch !== undefined) await sink.patch(patch.at, patch.bytes);
  return { done: true, value: { byteLength } };
};
