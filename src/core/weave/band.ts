/**
 * The band weaver: any rows of the sheet from the slices of the frames that they need.
 *
 * Weaving selects columns, so it can be swapped with interpolation between rows. With upright ribs each *source* row
 * is woven once, and the rows of the sheet are interpolated between woven rows. With lying ribs each row of the sheet
 * is a blend of frame rows, interpolated along itself. All sums are in linear light; encoding comes last. A row
 * depends on its number only, so any division into bands gives the same dots.
 */
import type { ToneTables } from '../colour/lamp.ts';
import { code8OfLinear } from '../colour/srgb.ts';
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
  const encode = toneOf(stack);
  const length = map.dots * 3;
  const out = new Uint8Array(rows.rowCount * length);
  const frameRows = frameRowsOf(stack);
  const weaveSourceRow = sourceRowWeaver(map, stack);
  let upper = new Uint16Array(length);
  let lower = new Uint16Array(length);
  let upperRow = -1;
  let lowerRow = -1;
  for (let i = 0; i < rows.rowCount; i += 1) {
    const { row, share } = rowPosition(rows.firstRow + i, sheet.heightDots, frameRows);
    const below = Math.min(row + 1, frameRows - 1);
    if (upperRow !== row) {
      if (lowerRow === row) [upper, lower, upperRow, lowerRow] = [lower, upper, row, -1];
      else weaveSourceRow((upperRow = row), upper);
    }
    if (lowerRow !== below) weaveSourceRow((lowerRow = below), lower);
    blendRow(upper, lower, share, encode, out, i * length, length);
  }
  return out;
};

/** out[i] = code of upper + (lower − upper) × share; the share is rounded to 14 bits. */
const blendRow = (
  upper: Uint16Array,
  lower: Uint16Array,
  share: number,
  [red, green, blue]: ToneTables,
  out: Uint8Array,
  base: number,
  length: number,
) => {
  const part = Math.round(share * 16384);
  const rest = 16384 - part;
  const light = (i: number) => (upper[i]! * rest + lower[i]! * part + 8192) >>> 14;
  for (let i = 0; i < length; i += 3) {
    out[base + i] = red[light(i)]!;
    out[base + i + 1] = green[light(i + 1)]!;
    out[base + i + 2] = blue[light(i + 2)]!;
  }
};

const frameRowsOf = (stack: SliceStack): number => {
  const rows = stack.frames[0]?.rows ?? 0;
  for (const frame of stack.frames)
    if (frame.rows !== rows)
      throw new RangeError(`frames: expected ${rows} rows in each, received ${frame.rows}`);
  return rows;
};

/** Weaves one row of the frames at the columns of the sheet. */
const sourceRowWeaver = (map: ColumnMap, stack: SliceStack) => {
  const { dots, start, weight } = map;
  const { all, frameBase, rowLength, firstRow } = joinSlices(stack);
  const at = new Uint32Array(weight.length);
  for (let e = 0; e < at.length; e += 1)
    at[e] = frameBase[stack.slots[map.slot[e]!]!]! + map.lenticule[e]! * 3;
  return (row: number, into: Uint16Array) => {
    const base = (row - firstRow) * rowLength;
    for (let dot = 0, to = 0; dot < dots; dot += 1, to += 3) {
      let r = 0.5;
      let g = 0.5;
      let b = 0.5;
      const end = start[dot + 1]!;
      for (let e = start[dot]!; e < end; e += 1) {
        const from = base + at[e]!;
        const w = weight[e]!;
        r += all[from]! * w;
        g += all[from + 1]! * w;
        b += all[from + 2]! * w;
      }
      into[to] = r;
      into[to + 1] = g;
      into[to + 2] = b;
    }
  };
};

/** All slices in one array, which inner loops read faster. */
const joinSlices = (stack: SliceStack) => {
  const first = stack.frames[0];
  if (first === undefined) throw new RangeError('frames: expected at least one, received none');
  const all = new Uint16Array(stack.frames.reduce((sum, frame) => sum + frame.pixels.length, 0));
  let filled = 0;
  const frameBase = stack.frames.map((frame) => {
    if (frame.columns !== first.columns || frame.firstRow !== first.firstRow)
      throw new RangeError(
        `frames: expected slices of ${first.columns} columns from row ${first.firstRow}, ` +
          `received ${frame.columns} from row ${frame.firstRow}`,
      );
    const base = filled;
    all.set(frame.pixels, base);
    filled += frame.pixels.length;
    return base;
  });
  return { all, frameBase, rowLength: first.columns * 3, firstRow: first.firstRow };
};

const weaveLying = (
  sheet: SheetSpec,
  map: ColumnMap,
  stack: SliceStack,
  rows: Rows,
  shown: ColumnRange,
) => {
  const encode = toneOf(stack);
  const { all, frameBase, rowLength, firstRow } = joinSlices(stack);
  const out = new Uint8Array(rows.rowCount * shown.count * 3);
  const steps = columnSteps(sheet.widthDots, rowLength / 3, shown);
  const line = new Float64Array(rowLength);
  const coded = new Uint16Array(rowLength);
  for (let i = 0; i < rows.rowCount; i += 1) {
    const y = rows.firstRow + i;
    line.fill(0.5);
    for (let e = map.start[y]!; e < map.start[y + 1]!; e += 1) {
      const frame = stack.slots[map.slot[e]!]!;
      const from = frameBase[frame]! + (map.lenticule[e]! - firstRow) * rowLength;
      const w = map.weight[e]!;
      for (let c = 0; c < rowLength; c += 1) line[c] = line[c]! + all[from + c]! * w;
    }
    coded.set(line);
    stretchRow(coded, steps, encode, out, i * shown.count * 3);
  }
  return out;
};

/** For each shown dot of a row: the sample to its left (as an index into RGB), and 14 bits of the next. */
const columnSteps = (dots: number, columns: number, { first, count }: ColumnRange) => {
  const left = new Uint32Array(count);
  const part = new Uint16Array(count);
  for (let x = 0; x < count; x += 1) {
    const { row, share } = rowPosition(first + x, dots, columns);
    left[x] = row * 3;
    part[x] = Math.round(share * 16384);
  }
  return { left, part, next: columns > 1 ? 3 : 0 };
};

const stretchRow = (
  line: Uint16Array,
  steps: { left: Uint32Array; part: Uint16Array; next: number },
  encode: ToneTables,
  out: Uint8Array,
  base: number,
) => {
  const { left, part, next } = steps;
  for (let x = 0, to = base; x < left.length; x += 1, to += 3) {
    const p = part[x]!;
    const rest = 16384 - p;
    const a = left[x]!;
    for (let c = 0; c < 3; c += 1)
      out[to + c] = (encode[c] as Uint8Array)[
        (line[a + c]! * rest + line[a + next + c]! * p + 8192) >>> 14
      ]!;
  }
};
