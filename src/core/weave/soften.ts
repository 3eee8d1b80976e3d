/**
 * Softens a reduced frame across its ribs where it moves more than the lens can show (see soft-kernel.ts), in linear
 * light. What lies within the sharp range stays the same to the bit.
 */
import type { PictureArea } from './picture-area.ts';
import type { ReducedFrame } from './reduce.ts';
import { lenticuleEdges } from './reduce.ts';
import type { SheetSpec } from './sheet-spec.ts';
import { softKernel, softWidth } from './soft-kernel.ts';

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
  for (let row = 0; row < rows; row += 1) {
    const widths = widthsOf(row);
    if (widths !== undefined)
      softenRow(pixels.subarray(row * columns * 3, (row + 1) * columns * 3), widths);
    if (row % ROWS_AT_ONCE === ROWS_AT_ONCE - 1) yield;
  }
}

/**
 * One row of RGB samples, each averaged with a kernel of its own width. A neighbour with a smaller width counts for
 * proportionally less, so that a sharp thing does not bleed into what is softened behind it.
 * @param widths one for each sample, in the steps of soft-kernel.ts; 0 leaves the sample as it is.
 */
export const softenRow = (line: Uint16Array, widths: Uint16Array): void => {
  const source = line.slice();
  for (let x = 0; x < widths.length; x += 1) {
    const own = widths[x]!;
    if (own === 0) continue;
    const kernel = softKernel(own);
    const reach = kernel.length - 1;
    let [r, g, b, whole] = [0, 0, 0, 0];
    const last = Math.min(widths.length - 1, x + reach);
    for (let at = Math.max(0, x - reach); at <= last; at += 1) {
      const share = Math.min(1, widths[at]! / own);
      const weight = kernel[Math.abs(at - x)]! * share;
      r += weight * source[3 * at]!;
      g += weight * source[3 * at + 1]!;
      b += weight * source[3 * at + 2]!;
      whole += weight;
    }
    line[3 * x] = r / whole + 0.5;
    line[3 * x + 1] = g / whole + 0.5;
    line[3 * x + 2] = b / whole + 0.5;
  }
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
