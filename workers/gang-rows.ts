/** Weaves rows of several prints on one lens sheet: each print from its own frames, in its place. */
import type { FrameStack, RowRange } from '../src/contract/weave.ts';
import { StudioError } from '../src/contract/errors.ts';
import { layIn, linedCanvas, shownOf } from '../src/core/sheet/gang/gang-rows.ts';
import type { GangSpec, PlacedSheet } from '../src/core/sheet/gang/gang-spec.ts';
import { pageComposer, wovenColumnsFor, wovenRowsFor } from '../src/core/sheet/page-rows.ts';
import type { SliceStack } from '../src/core/weave/band.ts';
import { sourceRowsFor, weaveRows } from '../src/core/weave/band.ts';
import type { ColumnMap } from '../src/core/weave/column-map.ts';
import { columnMap, lenticulesOver } from '../src/core/weave/column-map.ts';
import type { Checkpoint } from './answer.ts';
import { lastMade } from './remembered.ts';
import { readSlices } from './weave-slices.ts';

const knownOf = lastMade(({ page, whole }: GangSpec) => ({
  compose: pageComposer(page, whole),
  maps: new Map<string, ColumnMap>(),
}));

/** Copies in one column lie alike on the dots, so they share a map. */
const mapFor = (maps: Map<string, ColumnMap>, { sheet, slideMm }: PlacedSheet): ColumnMap => {
  const key = JSON.stringify([sheet, slideMm]);
  const had = maps.get(key);
  if (had !== undefined) return had;
  const slid = { ...sheet, offsetMm: sheet.offsetMm + slideMm };
  const map = columnMap(slid, lenticulesOver(sheet));
  maps.set(key, map);
  return map;
};

/** Copies in one row of prints need the same rows of the same frames: each band reads them once. */
const sliceReader = (stacks: readonly FrameStack[]) => {
  const read = new Map<string, Promise<SliceStack>>();
  return ({ sheet, stack }: PlacedSheet, map: ColumnMap, rows: RowRange): Promise<SliceStack> => {
    const frames = stacks[stack];
    if (frames === undefined) throw new StudioError('internal', `no frames for print ${stack}`);
    const needed = sourceRowsFor(sheet, map, frames.frames[0]?.rows ?? 0, rows);
    const key = JSON.stringify([stack, sheet, needed]);
    const slices = read.get(key) ?? readSlices(sheet, map, frames, rows);
    read.set(key, slices);
    return slices;
  };
};

/** @returns row-major RGB, 8 bit, of the page's own width. */
export const weaveGangRows = async (
  gang: GangSpec,
  stacks: readonly FrameStack[],
  rows: RowRange,
  checkpoint: Checkpoint,
): Promise<Uint8Array> => {
  const { compose, maps } = knownOf(gang);
  const inSheet = wovenRowsFor(gang.page, rows);
  if (inSheet === undefined) return compose(rows, undefined);
  const canvas = linedCanvas(gang, inSheet, wovenColumnsFor(gang.page));
  const readFor = sliceReader(stacks);
  for (const placed of gang.placed) {
    const shown = shownOf(placed, canvas);
    if (shown === undefined) continue;
    const map = mapFor(maps, placed);
    const slices = await readFor(placed, map, shown.rows);
    await checkpoint();
    layIn(canvas, placed, weaveRows(placed.sheet, map, slices, shown.rows, shown.columns));
  }
  return compose(rows, canvas.pixels);
};
