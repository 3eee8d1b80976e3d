/**
 * Softens a reduced frame across its ribs where it moves more than the lens can show (see soft-kernel.ts), in linear
 * light. What lies within the sharp range stays the same to the bit.
 */
import { kernels, layRooms } from '../numeric/kernels.ts';
import type { PictureArea } from './picture-area.ts';
import type { ReducedFrame } from './reduce.ts';
import { lenticuleEdges } from './reduce.ts';
import type { SheetSpec } from './sheet-spec.ts';
import { WIDEST, softKernel, softWidth } from './soft-kernel.ts';

/** How far the places of a frame move, on a coarse grid. Place 0 begins at the frame’s corner. */
export interface StepMap {
  readonly columns: number;
  readonly rows: number;
  /** Size of a place as shares of the frame’s width and height. */
  readonly placeWidth: number;
  readonly placeHeight: number;
  /** Ribs per view, row-major; NaN where unknown. */
  readonly steps: Float32Array<ArrayBuffer>;
}

export interface Softening {
  /** Above 0, up to 1: the published limit. */
  readonly strength: number;
  readonly map: StepMap;
}

/** How a reduced frame lies on its original. */
export interface Laid {
  readonly sheet: SheetSpec;
  readonly area: PictureArea;
  readonly widthPx: number;
  readonly heightPx: number;
}

const ROWS_AT_ONCE = 32;

/** Softens in place. Upright ribs only: lying ribs show no parallax. Yields now and then. */
export function* softenFrame(
  frame: ReducedFrame,
  laid: Laid,
  softening: Softening,
): Generator<undefined, void> {
  const widthsOf = widthReader(frame, laid, softening);
  const { columns, rows, pixels } = frame;
  for (let first = 0; first < rows; first += ROWS_AT_ONCE) {
    const soft: SoftRow[] = [];
    for (let row = first; row < Math.min(rows, first + ROWS_AT_ONCE); row += 1) {
      const widths = widthsOf(row)?.slice();
      const line = pixels.subarray(row * columns * 3, (row + 1) * columns * 3);
      if (widths !== undefined) soft.push({ line, widths });
    }
    softenRows(soft);
    if (first + ROWS_AT_ONCE <= rows) yield;
  }
}

/** A row of RGB samples, and the width of the kernel for each, in the steps of soft-kernel.ts. */
interface SoftRow {
  readonly line: Uint16Array;
  readonly widths: Uint16Array;
}

/**
 * Rows of RGB samples of one length, each sample averaged with a kernel of its own width, in place. A neighbour with a
 * smaller width counts for proportionally less, so that a sharp thing does not bleed into what is softened behind it.
 * Width 0 leaves a sample as it is.
 */
export const softenRows = (rows: readonly SoftRow[]): void => {
  const samples = rows[0]?.widths.length ?? 0;
  const kept = widthsIn(rows).map((width) => ({ width, half: softKernel(width) }));
  const numbers = kept.reduce((sum, { half }) => sum + half.length, 0);
  const [source, widthsAt, table, halves, into] = layRooms(
    samples * 6,
    samples * 2,
    (WIDEST + 1) * 8,
    numbers * 8,
    samples * 6,
  );
  const { memory, softenRow } = kernels();
  const where = new Uint32Array(memory.buffer, table, (WIDEST + 1) * 2);
  let at = halves;
  for (const { width, half } of kept) {
    new Float64Array(memory.buffer, at, half.length).set(half);
    where.set([at, half.length - 1], 2 * width);
    at += half.byteLength;
  }
  for (const { line, widths } of rows) {
    new Uint16Array(memory.buffer, source, line.length).set(line);
    new Uint16Array(memory.buffer, widthsAt, samples).set(widths);
    softenRow(source, widthsAt, table, samples, into);
    line.set(new Uint16Array(memory.buffer, into, line.length));
  }
};

/** Each width that occurs, once. */
const widthsIn = (rows: readonly SoftRow[]): number[] => {
  const used = new Uint8Array(WIDEST + 1);
  for (const { widths } of rows) for (const width of widths) used[width] = 1;
  return Array.from(used.keys()).filter((width) => used[width] === 1);
};

/** Kernel widths along a row of the reduced frame; undefined when all are 0. Bare paper stays sharp. */
const widthReader = (frame: ReducedFrame, laid: Laid, { strength, map }: Softening) => {
  const { sheet, area, widthPx, heightPx } = laid;
  const steps = filledSteps(map);
  const edges = lenticuleEdges(sheet);
  const shareAt = (share: number) => (area.left + share * area.width) / widthPx;
  const xs = Float64Array.from({ length: frame.columns }, (_, x) =>
    shareAt((edges[x]! + edges[x + 1]!) / 2),
  );
  const widths = new Uint16Array(frame.columns);
  return (row: number): Uint16Array | undefined => {
    const y = (area.top + ((row + 0.5) / frame.rows) * area.height) / heightPx;
    const stepAt = rowOfSteps(map, steps, y);
    xs.forEach((x, column) => {
      const onFrame = x >= 0 && x <= 1 && y >= 0 && y <= 1;
      widths[column] = onFrame ? softWidth(stepAt(x), strength) : 0;
    });
    return widths.some((width) => width > 0) ? widths : undefined;
  };
};

const between = (value: number, most: number) => Math.max(0, Math.min(most, value));

/** Steps at shares of the frame’s width, bilinear between the middles of places. */
const rowOfSteps = (
  { columns, rows, placeWidth, placeHeight }: StepMap,
  steps: Float32Array,
  y: number,
) => {
  const v = between(y / placeHeight - 0.5, rows - 1);
  const top = Math.min(Math.floor(v), Math.max(0, rows - 2));
  const below = Math.min(top + 1, rows - 1);
  const line = Float64Array.from({ length: columns }, (_, column) => {
    const upper = steps[top * columns + column]!;
    return upper + (steps[below * columns + column]! - upper) * (v - top);
  });
  return (x: number): number => {
    const u = between(x / placeWidth - 0.5, columns - 1);
    const left = Math.min(Math.floor(u), Math.max(0, columns - 2));
    const low = line[left]!;
    return low + (line[Math.min(left + 1, columns - 1)]! - low) * (u - left);
  };
};

/**
 * Gives unknown places the mean of known neighbours, ring by ring: bare walls have nothing to soften, and what is
 * hidden in the next frame is next to what hides it. All 0 when none is known.
 */
export const filledSteps = ({ columns, rows, steps }: StepMap): Float32Array => {
  let filled = steps.slice();
  let missing = [...filled.keys()].filter((at) => Number.isNaN(filled[at]));
  while (missing.length > 0) {
    const next = filled.slice();
    const still: number[] = [];
    for (const at of missing) {
      const mean = meanAround(filled, columns, rows, at);
      if (Number.isNaN(mean)) still.push(at);
      else next[at] = mean;
    }
    if (still.length === filled.length) return filled.fill(0);
    filled = next;
    missing = still;
  }
  return filled;
};

const meanAround = (steps: Float32Array, columns: number, rows: number, at: number): number => {
  const [column, row] = [at % columns, Math.floor(at / columns)];
  let [sum, count] = [0, 0];
  for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y += 1)
    for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x += 1) {
      const value = steps[y * columns + x]!;
      if (Number.isNaN(value)) continue;
      sum += value;
      count += 1;
    }
  return count === 0 ? NaN : sum / count;
};
