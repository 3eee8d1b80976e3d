/** Weaves bands into finished bytes, and windows of dots for the loupe. */
import type {
  BandRequest,
  BandResult,
  FrameStack,
  RowRange,
  WeaveWorker,
  WindowRequest,
  WindowResult,
} from '../src/contract/weave.ts';
import type { PreparedFrame } from '../src/contract/frames.ts';
import { StudioError } from '../src/contract/errors.ts';
import { sheetWriters } from '../src/core/encode/sheet-writers.ts';
import type { FrameSlice, SliceStack } from '../src/core/weave/band.ts';
import { sourceRowsFor, weaveRows } from '../src/core/weave/band.ts';
import type { PageComposer } from '../src/core/sheet/page-rows.ts';
import { pageComposer, wovenColumnsFor, wovenRowsFor } from '../src/core/sheet/page-rows.ts';
import type { PageSpec } from '../src/core/sheet/page-spec.ts';
import type { ColumnMap } from '../src/core/weave/column-map.ts';
import { columnMap } from '../src/core/weave/column-map.ts';
import { mixSlices } from '../src/core/weave/mix-slices.ts';
import type { SheetSpec } from '../src/core/weave/sheet-spec.ts';
import { Calls } from './answer.ts';

const BYTES_PER_SAMPLE = 6;

/** The map of the last sheet: every band of a sheet asks for the same one. */
let lastMap: { key: string; map: ColumnMap } | undefined;
const mapFor = (sheet: SheetSpec): ColumnMap => {
  const key = JSON.stringify(sheet);
  if (lastMap?.key !== key) lastMap = { key, map: columnMap(sheet) };
  return lastMap.map;
};

/** The page of the last sheet, likewise. */
let lastPage: { key: string; compose: PageComposer } | undefined;
const composerFor = (page: PageSpec, sheet: SheetSpec): PageComposer => {
  const key = JSON.stringify([page, sheet]);
  if (lastPage?.key !== key) lastPage = { key, compose: pageComposer(page, sheet) };
  return lastPage.compose;
};

const readSlices = async (
  sheet: SheetSpec,
  map: ColumnMap,
  stack: FrameStack,
  rows: RowRange,
): Promise<SliceStack> => {
  const frameRows = stack.frames[0]?.rows ?? 0;
  const { first, count } = sourceRowsFor(sheet, map, frameRows, rows);
  const readSlice = async (frame: PreparedFrame): Promise<FrameSlice> => {
    const rowBytes = frame.columns * BYTES_PER_SAMPLE;
    const slice = frame.pixels.slice(first * rowBytes, (first + count) * rowBytes);
    const bytes = await slice.arrayBuffer().catch(() => {
      throw new StudioError(
        'file-gone',
        'A prepared frame is no longer on the private disk. Change any field to prepare it anew.',
      );
    });
    return { ...frame, firstRow: first, pixels: new Uint16Array(bytes) };
  };
  const slices = await Promise.all(stack.frames.map(readSlice));
  return mixSlices(slices, stack.mixes ?? [], stack.slots);
};

const weaveSome = async (
  { sheet, stack, page }: BandRequest,
  rows: RowRange,
  checkpoint: () => Promise<void>,
): Promise<Uint8Array> => {
  const map = mapFor(sheet);
  const slices = await readSlices(sheet, map, stack, rows);
  await checkpoint();
  return weaveRows(sheet, map, slices, rows, page && wovenColumnsFor(page));
};

/** Rows of the page, or of the bare sheet where there is none around it. */
const drawRows = async (
  request: BandRequest,
  rows: RowRange,
  checkpoint: () => Promise<void>,
): Promise<Uint8Array> => {
  const { page, sheet } = request;
  if (page === undefined) return weaveSome(request, rows, checkpoint);
  const shown = wovenRowsFor(page, rows);
  const woven = shown && (await weaveSome(request, shown, checkpoint));
  return composerFor(page, sheet)(rows, woven);
};

const weaveBand = async (
  request: BandRequest,
  checkpoint: () => Promise<void>,
): Promise<BandResult> => {
  const { sheet, page, firstRow, rowCount } = request;
  const writer = sheetWriters[request.fileType];
  // A filter may look at the row above, so a band that does not begin the sheet weaves that one too.
  const above = firstRow > 0 ? writer.rowsAbove : 0;
  const rows = { firstRow: firstRow - above, rowCount: rowCount + above };
  const drawn = await drawRows(request, rows, checkpoint);
  await checkpoint();
  const rowBytes = (page ?? sheet).widthDots * 3;
  return writer.wrapBand({
    rows: drawn.subarray(above * rowBytes),
    rowBytes,
    above: above === 1 ? drawn.subarray(0, rowBytes) : null,
    ribs: sheet.ribs,
  });
};

const weaveWindow = async (request: WindowRequest): Promise<WindowResult> => {
  const { sheet, stack, left, top, width, height } = request;
  const rows = { firstRow: top, rowCount: height };
  const map = mapFor(sheet);
  const woven = weaveRows(sheet, map, await readSlices(sheet, map, stack, rows), rows);
  const pixels = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1)
      for (let c = 0; c < 3; c += 1)
        pixels[(y * width + x) * 4 + c] = woven[(y * sheet.widthDots + left + x) * 3 + c] as number;
  return { pixels, width, height };
};

export const createWeaveService = (): WeaveWorker => {
  const calls = new Calls();
  return {
    weaveBand: (request) =>
      calls.run(
        request.id,
        (checkpoint) => weaveBand(request, checkpoint),
        (band) => [band.bytes.buffer],
      ),
    weaveWindow: (request) =>
      calls.run(
        request.id,
        () => weaveWindow(request),
        (dots) => [dots.pixels.buffer],
      ),
    cancel: (id) => calls.cancel(id),
  };
};
