/** Reads the rows of the prepared frames that a band is woven from. */
import type { FrameStack, RowRange } from '../src/contract/weave.ts';
import type { PreparedFrame } from '../src/contract/frames.ts';
import { StudioError } from '../src/contract/errors.ts';
import { lampTables } from '../src/core/colour/lamp.ts';
import type { FrameSlice, SliceStack } from '../src/core/weave/band.ts';
import { sourceRowsFor } from '../src/core/weave/band.ts';
import type { ColumnMap } from '../src/core/weave/column-map.ts';
import { ribsReached, trimSlices } from '../src/core/weave/ghost.ts';
import { mixSlices } from '../src/core/weave/mix-slices.ts';
import type { SheetSpec } from '../src/core/weave/sheet-spec.ts';
import { lastMade } from './remembered.ts';

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
      'A prepared frame is gone from the browser’s private disk. Nothing of the job is lost: weave again, and it is prepared again.',
    );
  });
  return { ...frame, firstRow: first, pixels: new Uint16Array(bytes) };
};

const toneFor = lastMade(lampTables);

/** The range with `by` rows more on either side, within the frame. */
const widened = ({ first, count }: { first: number; count: number }, by: number, rows: number) => {
  const from = Math.max(0, first - by);
  return { first: from, count: Math.min(rows, first + count + by) - from };
};

export const readSlices = async (
  sheet: SheetSpec,
  map: ColumnMap,
  stack: FrameStack,
  rows: RowRange,
): Promise<SliceStack> => {
  const { trim, lamp } = stack;
  const frameRows = stack.frames[0]?.rows ?? 0;
  const beside =
    trim === undefined || sheet.ribs === 'upright' ? 0 : ribsReached(trim, sheet.viewSlots);
  const { first, count } = widened(sourceRowsFor(sheet, map, frameRows, rows), beside, frameRows);
  const slices = await Promise.all(stack.frames.map((frame) => readRows(frame, first, count)));
  const mixed = mixSlices(slices, stack.mixes ?? [], stack.slots);
  const trimmed = trim === undefined ? mixed : trimSlices(mixed, sheet.ribs, trim).stack;
  return lamp === undefined ? trimmed : { ...trimmed, tone: toneFor(lamp) };
};
