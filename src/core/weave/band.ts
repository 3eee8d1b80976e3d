/**
 * The band weaver: any rows of the sheet from the slices of the frames that they need.
 *
 * Weaving selects columns, so it can be swapped with interpolation between rows. With upright ribs each *source* row
 * is woven once, and the rows of the sheet are interpolated between woven rows. With lying ribs each row of the sheet
 * is a blend of frame rows, interpolated along itself. All sums are in linear light; encoding comes last. A row
 * depends on its number only, so any division into bands gives the same dots.
 */
import type { ToneTables } from '../colour/lamp.ts';
import { LINEAR_MAX, code8OfLinear } from '../colour/srgb.ts';
import { kernels, layRooms, roomBytes } from '../numeric/kernels.ts';
import type { ColumnMap } from './column-map.ts';
import { dotsOfMap } from './column-map.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** Rows [firstRow, firstRow + rowCount). */
export interface Rows {
  readonly firstRow: number;
  readonly rowCount: number;
}

/** Columns [first, first + count) of the sheet. */
export interface ColumnRange {
  readonly first: number;
  readonly count: number;
}

/** Rows of one prepared frame, starting at `firstRow`; `rows` counts those of the whole frame. */
export interface FrameSlice {
  readonly columns: number;
  readonly rows: number;
  readonly firstRow: number;
  /** Row-major RGB, linear light 0 … 65535. */
  readonly pixels: Uint16Array;
}

export interface SliceStack {
  readonly frames: readonly FrameSlice[];
  /** For each view slot, the index of its frame. */
  readonly slots: readonly number[];
  /** Tables that encode the light; left out: sRGB. */
  readonly tone?: ToneTables;
}

/** Where sheet row y falls in a frame: between `row` and `row + 1`, at `share` of the way. */
const rowPosition = (y: number, sheetRows: number, frameRows: number) => {
  const at = Math.min(frameRows - 1, Math.max(0, ((y + 0.5) * frameRows) / sheetRows - 0.5));
  const row = Math.min(Math.floor(at), Math.max(0, frameRows - 2));
  return { row, share: at - row };
};

/** The rows of each prepared frame that a band needs. */
export const sourceRowsFor = (
  sheet: SheetSpec,
  map: ColumnMap,
  frameRows: number,
  rows: Rows,
): { first: number; count: number } => {
  const lastRow = rows.firstRow + rows.rowCount - 1;
  if (sheet.ribs === 'lying') {
    const first = map.lenticule[map.start[rows.firstRow]!]!;
    const last = map.lenticule[map.start[lastRow + 1]! - 1]!;
    return { first, count: last - first + 1 };
  }
  const first = rowPosition(rows.firstRow, sheet.heightDots, frameRows).row;
  const last = rowPosition(lastRow, sheet.heightDots, frameRows).row + 1;
  return { first, count: Math.min(frameRows - 1, last) - first + 1 };
};

/**
 * Weaves a band.
 * @param columns the dots of each row to weave; left out: all. Dots do not depend on it.
 * @returns row-major RGB, 8 bit, sRGB-encoded, length rowCount × columns.count × 3.
 * @throws RangeError that names `slots` or `frames`.
 */
export const weaveRows = (
  sheet: SheetSpec,
  map: ColumnMap,
  stack: SliceStack,
  rows: Rows,
  columns: ColumnRange = { first: 0, count: sheet.widthDots },
): Uint8Array<ArrayBuffer> => {
  if (stack.slots.length !== sheet.viewSlots)
    throw new RangeError(`slots: expected ${sheet.viewSlots}, received ${stack.slots.length}`);
  return sheet.ribs === 'upright'
    ? weaveUpright(sheet, dotsOfMap(map, columns), stack, rows)
    : weaveLying(sheet, map, stack, rows, columns);
};

let plainTone: ToneTables | undefined;
const toneOf = ({ tone }: SliceStack): ToneTables => {
  if (tone !== undefined) return tone;
  if (plainTone === undefined) {
    const table = code8OfLinear();
    plainTone = [table, table, table];
  }
  return plainTone;
};

const weaveUpright = (sheet: SheetSpec, map: ColumnMap, stack: SliceStack, rows: Rows) => {
  const { weaveRow, blendRow } = kernels();
  const { dots } = map;
  const length = dots * 3;
  const frameRows = frameRowsOf(stack);
  const { bytes, rowBytes, firstRow } = slicesOf(stack);
  const entries = map.weight.length;
  const [slices, start, at, weight, one, other, tones, out] = layRooms(
    bytes,
    (dots + 1) * 4,
    entries * 4,
    entries * 8,
    length * 2,
    length * 2,
    TONE_BYTES,
    rows.rowCount * length,
  );
  const frameAt = putSlices(stack, slices);
  const [red, green, blue] = putTones(stack, tones);
  const { buffer } = kernels().memory;
  new Uint32Array(buffer, start, dots + 1).set(map.start);
  new Float64Array(buffer, weight, entries).set(map.weight);
  const from = new Uint32Array(buffer, at, entries);
  for (let e = 0; e < entries; e += 1)
    from[e] = frameAt[stack.slots[map.slot[e]!]!]! + map.lenticule[e]! * SAMPLE_BYTES;
  const weave = (row: number, into: number) =>
    weaveRow((row - firstRow) * rowBytes, start, at, weight, dots, into);
  let [upper, lower] = [one, other];
  let upperRow = -1;
  let lowerRow = -1;
  for (let i = 0; i < rows.rowCount; i += 1) {
    const { row, share } = rowPosition(rows.firstRow + i, sheet.heightDots, frameRows);
    const below = Math.min(row + 1, frameRows - 1);
    if (upperRow !== row) {
      if (lowerRow === row) [upper, lower, upperRow, lowerRow] = [lower, upper, row, -1];
      else weave((upperRow = row), upper);
    }
    if (lowerRow !== below) weave((lowerRow = below), lower);
    blendRow(upper, lower, partOf(share), red, green, blue, dots, out + i * length);
  }
  return roomBytes(out, rows.rowCount * length).slice();
};

/** A share as the kernels take it: 14 bits. */
const partOf = (share: number): number => Math.round(share * 16384);

/** Bytes of a sample of light: three of 16 bits. */
const SAMPLE_BYTES = 6;
/** Bytes of the table of one channel, and of all three. */
const TABLE_BYTES = LINEAR_MAX + 1;
const TONE_BYTES = 3 * TABLE_BYTES;

/** @returns the addresses of the three tables. One that serves several channels lies there once: it stays close by. */
const putTones = (stack: SliceStack, room: number): [number, number, number] => {
  const tables = toneOf(stack);
  return tables.map((table) => {
    const at = room + tables.indexOf(table) * TABLE_BYTES;
    roomBytes(at, TABLE_BYTES).set(table);
    return at;
  }) as [number, number, number];
};

const frameRowsOf = (stack: SliceStack): number => {
  const rows = stack.frames[0]?.rows ?? 0;
  for (const frame of stack.frames)
    if (frame.rows !== rows)
      throw new RangeError(`frames: expected ${rows} rows in each, received ${frame.rows}`);
  return rows;
};

/** What all slices have in common, and their size. */
const slicesOf = ({ frames: [first, ...others] }: SliceStack) => {
  if (first === undefined) throw new RangeError('frames: expected at least one, received none');
  let bytes = first.pixels.byteLength;
  for (const frame of others) {
    if (frame.columns !== first.columns || frame.firstRow !== first.firstRow)
      throw new RangeError(
        `frames: expected slices of ${first.columns} columns from row ${first.firstRow}, ` +
          `received ${frame.columns} from row ${frame.firstRow}`,
      );
    bytes += frame.pixels.byteLength;
  }
  return { bytes, rowBytes: first.columns * SAMPLE_BYTES, firstRow: first.firstRow };
};

/** Puts the slices into the room, one after the other. @returns the address of each. */
const putSlices = ({ frames }: SliceStack, room: number): number[] => {
  const { buffer } = kernels().memory;
  let at = room;
  return frames.map(({ pixels }) => {
    const here = at;
    new Uint16Array(buffer, here, pixels.length).set(pixels);
    at += pixels.byteLength;
    return here;
  });
};

const weaveLying = (
  sheet: SheetSpec,
  map: ColumnMap,
  stack: SliceStack,
  rows: Rows,
  shown: ColumnRange,
) => {
  const { mixRow, stretchRow } = kernels();
  const { bytes, rowBytes, firstRow } = slicesOf(stack);
  const most = mostEntries(map, rows);
  const length = shown.count * 3;
  const [slices, from, shares, line, steps, tones, out] = layRooms(
    bytes,
    most * 4,
    most * 8,
    rowBytes,
    shown.count * 8,
    TONE_BYTES,
    rows.rowCount * length,
  );
  const frameAt = putSlices(stack, slices);
  const [red, green, blue] = putTones(stack, tones);
  const { buffer } = kernels().memory;
  const columns = rowBytes / SAMPLE_BYTES;
  putSteps(new Uint32Array(buffer, steps, shown.count * 2), sheet.widthDots, columns, shown);
  const next = columns > 1 ? SAMPLE_BYTES : 0;
  const rowAt = new Uint32Array(buffer, from, most);
  const share = new Float64Array(buffer, shares, most);
  for (let i = 0; i < rows.rowCount; i += 1) {
    const first = map.start[rows.firstRow + i]!;
    const count = map.start[rows.firstRow + i + 1]! - first;
    for (let e = 0; e < count; e += 1) {
      const frame = frameAt[stack.slots[map.slot[first + e]!]!]!;
      rowAt[e] = frame + (map.lenticule[first + e]! - firstRow) * rowBytes;
      share[e] = map.weight[first + e]!;
    }
    mixRow(from, shares, count, columns * 3, line);
    stretchRow(line, steps, next, shown.count, red, green, blue, out + i * length);
  }
  return roomBytes(out, rows.rowCount * length).slice();
};

/** The entries of the dot of the map that has most of them. */
const mostEntries = ({ start }: ColumnMap, { firstRow, rowCount }: Rows): number => {
  let most = 0;
  for (let y = firstRow; y < firstRow + rowCount; y += 1)
    most = Math.max(most, start[y + 1]! - start[y]!);
  return most;
};

/** For each shown dot of a row: bytes to the sample on its left, and 14 bits of the way to the next. */
const putSteps = (
  steps: Uint32Array,
  dots: number,
  columns: number,
  { first, count }: ColumnRange,
) => {
  for (let x = 0; x < count; x += 1) {
    const { row, share } = rowPosition(first + x, dots, columns);
    steps[2 * x] = row * SAMPLE_BYTES;
    steps[2 * x + 1] = partOf(share);
  }
};
