/** Weaves bands of sheets, and windows of dots for the loupe. */
import type {
  BandRequest,
  GangBandRequest,
  RowRange,
  WeaveWorker,
  WindowRequest,
  WindowResult,
} from '../src/contract/weave.ts';
import type { BandBytes } from '../src/core/encode/row-writer.ts';
import { seenInPrint } from '../src/core/colour/icc/look.ts';
import { weaveRows } from '../src/core/weave/band.ts';
import { pageComposer, wovenColumnsFor, wovenRowsFor } from '../src/core/sheet/page-rows.ts';
import type { PageSpec } from '../src/core/sheet/page-spec.ts';
import { columnMap } from '../src/core/weave/column-map.ts';
import type { SheetSpec } from '../src/core/weave/sheet-spec.ts';
import type { Checkpoint } from './answer.ts';
import { Calls } from './answer.ts';
import { drawBand } from './draw-band.ts';
import { weaveGangRows } from './gang-rows.ts';
import { deviceTableOf } from './device-tables.ts';
import { lastMade } from './remembered.ts';
import { readSlices } from './weave-slices.ts';

const mapFor = lastMade((sheet: SheetSpec) => columnMap(sheet));
const composerFor = lastMade(([page, sheet]: readonly [PageSpec, SheetSpec]) =>
  pageComposer(page, sheet),
);

const weaveSome = async (
  { sheet, stack, page }: BandRequest,
  rows: RowRange,
  checkpoint: Checkpoint,
): Promise<Uint8Array> => {
  const map = mapFor(sheet);
  const slices = await readSlices(sheet, map, stack, rows);
  await checkpoint();
  return weaveRows(sheet, map, slices, rows, page && wovenColumnsFor(page));
};

/** Rows of the page, or of the bare sheet if it has none. */
const drawRows = async (
  request: BandRequest,
  rows: RowRange,
  checkpoint: Checkpoint,
): Promise<Uint8Array> => {
  const { page, sheet } = request;
  if (page === undefined) return weaveSome(request, rows, checkpoint);
  const shown = wovenRowsFor(page, rows);
  const woven = shown && (await weaveSome(request, shown, checkpoint));
  return composerFor([page, sheet])(rows, woven);
};

const weaveBand = (request: BandRequest, checkpoint: Checkpoint): Promise<BandBytes> => {
  const draw = (rows: RowRange) => drawRows(request, rows, checkpoint);
  return drawBand({ ...request, ribs: request.sheet.ribs, draw }, checkpoint);
};

const weaveGangBand = (request: GangBandRequest, checkpoint: Checkpoint): Promise<BandBytes> => {
  const { gang, stacks } = request;
  const draw = (rows: RowRange) => weaveGangRows(gang, stacks, rows, checkpoint);
  return drawBand({ ...request, ribs: gang.whole.ribs, draw }, checkpoint);
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
  if (request.look !== undefined) {
    const { table, warn } = request.look;
    seenInPrint(pixels, await deviceTableOf(table), warn, pixels);
  }
  return { pixels, width, height };
};

export const createWeaveService = (): WeaveWorker => {
  const calls = new Calls();
  return {
    weaveBand: calls.method(weaveBand, ({ bytes }) => [bytes.buffer]),
    weaveGangBand: calls.method(weaveGangBand, ({ bytes }) => [bytes.buffer]),
    weaveWindow: calls.method(weaveWindow, ({ pixels }) => [pixels.buffer]),
    cancel: calls.cancel,
  };
};
