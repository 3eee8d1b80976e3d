/** What bands are woven from: the map of a sheet, and the rows of its frames that a band needs. */
import type { FrameStack, RowRange } from '../src/contract/weave.ts';
import type { PreparedFrame } from '../src/contract/frames.ts';
import { StudioError } from '../src/contract/errors.ts';
import type { FrameSlice, SliceStack } from '../src/core/weave/band.ts';
import { sourceRowsFor } from '../src/core/weave/band.ts';
import type { ColumnMap } from '../src/core/weave/column-map.ts';
import { mixSlices } from '../src/core/weave/mix-slices.ts';
import type { SheetSpec } from '../src/core/weave/sheet-spec.ts';

const BYTES_PER_SAMPLE = 6;

/** Rows of a frame's samples, from `first` on. */
const readRows = async (
  frame: PreparedFrame,
  first: number,
  count: number,
): Promise<FrameSlice> => {
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

export const readSlices = async (
  sheet: SheetSpec,
  map: ColumnMap,
  stack: FrameStack,
  rows: RowRange,
): Promise<SliceStack> => {
  const { first, count } = sourceRowsFor(sheet, map, stack.frames[0]?.rows ?? 0, rows);
  const slices = await Promise.all(stack.frames.map((frame) => readRows(frame, first, count)));
  return mixSlices(slices, stack.mixes ?? [], stack.slots);
};
