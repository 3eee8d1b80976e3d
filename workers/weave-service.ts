/** Weaves bands into finished bytes, and windows of dots for the loupe. */
import type {
  BandRequest,
  BandResult,
  GangBandRequest,
  RowRange,
  WeaveWorker,
  WindowRequest,
  WindowResult,
} from '../src/contract/weave.ts';
import { sheetWriters } from '../src/core/encode/sheet-writers.ts';
import { weaveRows } from '../src/core/weave/band.ts';
import type { PageComposer } from '../src/core/sheet/page-rows.ts';
import { pageComposer, wovenColumnsFor, wovenRowsFor } from '../src/core/sheet/page-rows.ts';
import type { PageSpec } from '../src/core/sheet/page-spec.ts';
import type { ColumnMap } from '../src/core/weave/column-map.ts';
import { columnMap } from '../src/core/weave/column-map.ts';
import type { SheetSpec } from '../src/core/weave/sheet-spec.ts';
import { Calls } from './answer.ts';
import { weaveGangRows } from './gang-rows.ts';
import { readSlices } from './weave-slices.ts';

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

/** What a band is cut from: rows, and how they are drawn. */
interface Drawing extends Pick<BandRequest, 'fileType' | keyof RowRange> {
  readonly widthDots: number;
  readonly ribs: SheetSpec['ribs'];
  readonly draw: (rows: RowRange) => Promise<Uint8Array>;
}

const drawBand = async (
  { fileType, firstRow, rowCount, widthDots, ribs, draw }: Drawing,
  checkpoint: () => Promise<void>,
): Promise<BandResult> => {
  const writer = sheetWriters[fileType];
  // A filter may look at the row above, so a band that does not begin the sheet draws that one too.
  const above = firstRow > 0 ? writer.rowsAbove : 0;
  const drawn = await draw({ firstRow: firstRow - above, rowCount: rowCount + above });
  await checkpoint();
  const rowBytes = widthDots * 3;
  return writer.wrapBand({
    rows: drawn.subarray(above * rowBytes),
    rowBytes,
    above: above === 1 ? drawn.subarray(0, rowBytes) : null,
    ribs,
  });
};

const weaveBand = (request: BandRequest, checkpoint: () => Promise<void>): Promise<BandResult> => {
  const { sheet, page } = request;
  const { widthDots } = page ?? sheet;
  const draw = (rows: RowRange) => drawRows(request, rows, checkpoint);
  return drawBand({ ...request, widthDots, ribs: sheet.ribs, draw }, checkpoint);
};

const weaveGangBand = (
  request: GangBandRequest,
  checkpoint: () => Promise<void>,
): Promise<BandResult> => {
  const { gang, stacks } = request;
  const { widthDots } = gang.page;
  const draw = (rows: RowRange) => weaveGangRows(gang, stacks, rows, checkpoint);
  return drawBand({ ...request, widthDots, ribs: gang.whole.ribs, draw }, checkpoint);
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
        pixels[(y * width + x) * 4 + c] = woven[(y * sheet.widthDots + left + x) * 3 + c]!;
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
    weaveGangBand: (request) =>
      calls.run(
        request.id,
        (checkpoint) => weaveGangBand(request, checkpoint),
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
