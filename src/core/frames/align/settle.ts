/**
 * Settles how one picture lies on another to a part of a pixel: the similarity that lessens the squared differences of
 * the evened pictures, by Gauss–Newton steps (Lucas & Kanade, IJCAI 1981), where what does not agree, such as a thing that
 * was changed, loses its weight (Tukey's biweight).
 */
import { solve } from '../../numeric/solve.ts';
import { medianOf } from '../../numeric/median.ts';
import type { Similarity } from '../../numeric/similarity.ts';
import { moved } from '../../numeric/similarity.ts';
import type { Plane } from '../parallax/plane.ts';

export interface Settled {
  readonly between: Similarity;
  /** Share of the compared places that agree, 0 … 1. */
  readonly agrees: number;
}

const STEPS = 30;
/** Tukey: 95 % as exact as squares on normal errors. */
const TUKEY = 4.685;
/** The standard deviation of normal errors is this times their median size. */
const BY_MEDIAN = 1.4826;
/** Places that are compared. */
const PLACES = 60000;
/** A step that moves no corner by more ends it, pixels. */
const DONE_PX = 0.002;
const MARGIN = 2;

/** Value and slopes at a point, bilinear between the middles of pixels; NaN outside. */
const readAt = ({ width, height, data }: Plane, x: number, y: number, out: Float64Array): void => {
  const [u, v] = [x - 0.5, y - 0.5];
  const [left, top] = [Math.floor(u), Math.floor(v)];
  if (left < MARGIN || top < MARGIN || left >= width - MARGIN - 1 || top >= height - MARGIN - 1) {
    out[0] = NaN;
    return;
  }
  const [right, down] = [u - left, v - top];
  const at = top * width + left;
  const lerp = (by: number) => {
    const p = at + by;
    const upper = data[p]! + right * (data[p + 1]! - data[p]!);
    const lower = data[p + width]! + right * (data[p + width + 1]! - data[p + width]!);
    return upper + down * (lower - upper);
  };
  out[0] = lerp(0);
  out[1] = (lerp(1) - lerp(-1)) / 2;
  out[2] = (lerp(width) - lerp(-width)) / 2;
};

interface Sums {
  readonly normal: Float64Array;
  readonly right: Float64Array;
}

interface Compared {
  readonly from: Plane;
  readonly to: Plane;
  /** Every so many pixels of `from`, across and down. */
  readonly every: number;
}

/** Goes over the places that lie on both. */
const overPlaces = (
  { from, to, every }: Compared,
  between: Similarity,
  take: (x: number, y: number, off: number, slopes: Float64Array) => void,
) => {
  const read = new Float64Array(3);
  for (let row = MARGIN; row < from.height - MARGIN; row += every)
    for (let column = MARGIN; column < from.width - MARGIN; column += every) {
      const { x, y } = moved(between, { x: column + 0.5, y: row + 0.5 });
      readAt(to, x, y, read);
      if (Number.isNaN(read[0])) continue;
      take(column + 0.5, row + 0.5, read[0]! - from.data[row * from.width + column]!, read);
    }
};

/** The median size of what the two differ by, over a part of the places. */
const usualMiss = (compared: Compared, between: Similarity): number => {
  const misses: number[] = [];
  overPlaces({ ...compared, every: 3 * compared.every }, between, (_x, _y, off) =>
    misses.push(Math.abs(off)),
  );
  return medianOf(misses);
};

/** @returns undefined where the two do not lie on each other, or nothing in them tells how */
export function* settle(
  from: Plane,
  to: Plane,
  start: Similarity,
): Generator<undefined, Settled | undefined> {
  const every = Math.max(1, Math.round(Math.sqrt((from.width * from.height) / PLACES)));
  const compared = { from, to, every };
  const [cx, cy] = [from.width / 2, from.height / 2];
  const size = Math.max(cx, cy);
  let between = start;
  let agrees = 0;
  for (let step = 0; step < STEPS; step += 1) {
    const limit = TUKEY * Math.max(1e-6, BY_MEDIAN * usualMiss(compared, between));
    if (Number.isNaN(limit)) return undefined;
    const sums: Sums = { normal: new Float64Array(16), right: new Float64Array(4) };
    let [seen, kept] = [0, 0];
    const slope = new Float64Array(4);
    overPlaces(compared, between, (x, y, off, read) => {
      seen += 1;
      const ratio = off / limit;
      if (Math.abs(ratio) >= 1) return;
      kept += 1;
      const weight = (1 - ratio * ratio) ** 2;
      const [u, v] = [(x - cx) / size, (y - cy) / size];
      slope[0] = read[1]! * u + read[2]! * v;
      slope[1] = -read[1]! * v + read[2]! * u;
      slope[2] = read[1]!;
      slope[3] = read[2]!;
      for (let i = 0; i < 4; i += 1) {
        sums.right[i]! -= weight * slope[i]! * off;
        for (let j = 0; j < 4; j += 1) sums.normal[4 * i + j]! += weight * slope[i]! * slope[j]!;
      }
    });
    const by = solve(sums.normal, sums.right);
    if (by === undefined || by.some((value) => !Number.isFinite(value))) return undefined;
    const [da, db] = [by[0]! / size, by[1]! / size];
    between = {
      a: between.a + da,
      b: between.b + db,
      x0: between.x0 + by[2]! - da * cx + db * cy,
      y0: between.y0 + by[3]! - db * cx - da * cy,
    };
    agrees = kept / seen;
    if (Math.hypot(by[0]!, by[1]!) + Math.hypot(by[2]!, by[3]!) < DONE_PX) break;
    yield;
  }
  return { between, agrees };
}
