/** Weaves rows of a gang: each print that they meet, from its own frames, in its place. */
import type { FrameStack, RowRange } from '../src/contract/weave.ts';
import { StudioError } from '../src/contract/errors.ts';
import { layIn, linedCanvas, shownOf } from '../src/core/sheet/gang/gang-rows.ts';
import type { GangSpec, PlacedSheet } from '../src/core/sheet/gang/gang-spec.ts';
import { pageComposer, wovenColumnsFor, wovenRowsFor } from '../src/core/sheet/page-rows.ts';
import type { SliceStack } from '../src/core/weave/band.ts';
import { sourceRowsFor, weaveRows } from '../src/core/weave/band.ts';
import type { ColumnMap } from '../src/core/weave/column-map.ts';
import { columnMap, lenticulesOver } from '../src/core/weave/column-map.ts';
import { readSlices } from './weave-slices.ts';

/** Everything about the last gang that each of its bands would else work out again. */
interface Known {
  readonly key: string;
  readonly compose: ReturnType<typeof pageComposer>;
  readonly maps: Map<string, ColumnMap>;
}
let last: Known | undefined;
const knownOf = (gang: GangSpec): Known => {
  const key = JSON.stringify(gang);
  if (last?.key !== key)
    last = { key, compose: pageComposer(gang.page, gang.whole), maps: new Map() };
  return last;
};

/** Copies in one column lie alike on the dots, and share a map. */
const mapFor = (maps: Known['maps'], { sheet, slideMm }: PlacedSheet): ColumnMap => {
  const key = JSON.stringify([sheet, slideMm]);
  const had = maps.get(key);
  if (had !== undefined) return had;
  const slid = { ...sheet, offsetMm: sheet.offsetMm + slideMm };
  const map = columnMap(slid, lenticulesOver(sheet));
  maps.set(key, map);
  return map;
};

/** Copies in one row of prints need the same rows of the same frames: they are read once a band. */
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
  checkpoint: () => Promise<void>,
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
