/** The colours of a warped row: its samples, and the holes between them. */
import { FINE } from './warp.ts';
import type { WarpRow } from './warp.ts';

/** The row of the picture that colours come from: RGB, linear light, starting at `base`. */
export interface SourceRow {
  readonly pixels: Uint16Array;
  readonly base: number;
}

/** A hole takes the average colour of this many pixels of its farther side. */
const FILL_PX = 2;

/**
 * Adds `amount` of the colour at u to `sum` without crossing a tear: Catmull–Rom over four pixels. Unrolled, since it
 * runs for every pixel of every view.
 */
const addColour = (
  { width, torn }: WarpRow,
  { pixels, base }: SourceRow,
  u: number,
  amount: number,
  sum: Float64Array,
): void => {
  let left = Math.floor(u);
  let t = u - left;
  if (left < 0 || left >= width - 1 || torn[left] === 1) {
    left = Math.min(width - 1, Math.max(0, Math.round(u)));
    t = 0;
  }
  const b = base + 3 * left;
  if (t < 1e-4) {
    sum[0] = sum[0]! + amount * pixels[b]!;
    sum[1] = sum[1]! + amount * pixels[b + 1]!;
    sum[2] = sum[2]! + amount * pixels[b + 2]!;
    return;
  }
  const a = left > 0 && torn[left - 1] !== 1 ? b - 3 : b;
  const c = b + 3;
  const d = left < width - 2 && torn[left + 1] !== 1 ? b + 6 : c;
  const wa = amount * t * (-0.5 + t * (1 - 0.5 * t));
  const wb = amount * (1 + t * t * (-2.5 + 1.5 * t));
  const wc = amount * t * (0.5 + t * (2 - 1.5 * t));
  const wd = amount * t * t * (-0.5 + 0.5 * t);
  sum[0] = sum[0]! + wa * pixels[a]! + wb * pixels[b]! + wc * pixels[c]! + wd * pixels[d]!;
  sum[1] =
    sum[1]! + wa * pixels[a + 1]! + wb * pixels[b + 1]! + wc * pixels[c + 1]! + wd * pixels[d + 1]!;
  sum[2] =
    sum[2]! + wa * pixels[a + 2]! + wb * pixels[b + 2]! + wc * pixels[c + 2]! + wd * pixels[d + 2]!;
};

/** Adds the mean colour of the few pixels beyond the edge of a hole that belong to one surface. */
const addEdgeColour = (
  row: WarpRow,
  source: SourceRow,
  u: number,
  away: 1 | -1,
  amount: number,
  sum: Float64Array,
): void => {
  let x = Math.min(row.width - 1, Math.max(0, Math.round(u)));
  const taken = [x];
  while (taken.length < FILL_PX) {
    const gap = away > 0 ? x : x - 1;
    if (gap < 0 || gap >= row.width - 1 || row.torn[gap] === 1) break;
    x += away;
    taken.push(x);
  }
  for (const place of taken)
    for (let c = 0; c < 3; c += 1)
      sum[c] = sum[c]! + (amount * source.pixels[source.base + 3 * place + c]!) / taken.length;
};

/** Sides whose shifts differ by less than this, in pixels, are one surface. */
const ONE_SURFACE_PX = 0.75;

/**
 * Colours for the holes of a row. Each is filled from its farther side, the one that was hidden (background-side
 * filling: Oh, Yea, Ho, Picture Coding Symposium 2009); where both sides are equally far, with a gradient from one to
 * the other.
 * @param fill receives RGB for each sample, length width × FINE × 3.
 */
export const fillHoles = (
  row: WarpRow,
  source: SourceRow,
  slide: number,
  fill: Float64Array,
): void => {
  const { from, part } = row;
  const one = new Float64Array(3);
  const other = new Float64Array(3);
  for (let first = 0; first < from.length; first += 1) {
    if (part[first] !== Infinity) continue;
    let end = first + 1;
    while (end < from.length && part[end] === Infinity) end += 1;
    const before = first > 0 ? part[first - 1]! : -Infinity;
    const after = end < from.length ? part[end]! : -Infinity;
    one.fill(0);
    other.fill(0);
    const alike = Math.abs(slide * (before - after)) < ONE_SURFACE_PX;
    if (alike || before > after) addEdgeColour(row, source, from[first - 1]!, -1, 1, one);
    if (alike || after > before) addEdgeColour(row, source, from[end]!, 1, 1, other);
    for (let i = first; i < end; i += 1) {
      const t = alike ? (i - first + 0.5) / (end - first) : before > after ? 0 : 1;
      for (let c = 0; c < 3; c += 1) fill[3 * i + c] = (1 - t) * one[c]! + t * other[c]!;
    }
    first = end;
  }
};

/**
 * One row of the made picture.
 * @param into RGB, linear light, 0 … 65535, and `holes`, the filled share of each pixel, 0 … 255.
 * @param at first pixel of the row in `into`.
 */
export const colourRow = (
  row: WarpRow,
  source: SourceRow,
  fill: Float64Array,
  into: { readonly pixels: Uint16Array; readonly holes: Uint8Array },
  at: number,
): void => {
  const { from, part, width } = row;
  const { pixels, holes } = into;
  const sum = new Float64Array(3);
  const clipped = (light: number): number =>
    light > 0 ? (light < 65535 ? light + 0.5 : 65535) : 0;
  for (let x = 0; x < width; x += 1) {
    let low = Infinity;
    let high = -Infinity;
    let total = 0;
    let seen = 0;
    for (let i = FINE * x; i < FINE * (x + 1); i += 1) {
      if (part[i] === Infinity) continue;
      const u = from[i]!;
      if (u < low) low = u;
      if (u > high) high = u;
      total += u;
      seen += 1;
    }
    sum[0] = sum[1] = sum[2] = 0;
    // A pixel of one surface takes a single sample at its middle, so that nothing is blurred.
    if (seen === FINE && high - low < 2) addColour(row, source, total / FINE, 1, sum);
    else
      for (let i = FINE * x; i < FINE * (x + 1); i += 1)
        if (part[i] !== Infinity) addColour(row, source, from[i]!, 1 / FINE, sum);
        else for (let c = 0; c < 3; c += 1) sum[c] = sum[c]! + fill[3 * i + c]! / FINE;
    const to = 3 * (at + x);
    pixels[to] = clipped(sum[0]);
    pixels[to + 1] = clipped(sum[1]);
    pixels[to + 2] = clipped(sum[2]);
    holes[at + x] = Math.round((255 * (FINE - seen)) / FINE);
  }
};
