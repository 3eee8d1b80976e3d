/**
 * Places that say nothing themselves. What has the same tone as places around it is taken for the same surface (as in
 * stereo over segments of one colour: Tao, Sawhney & Kumar 2001, from memory), provided that the frames bear it out.
 * All limits are our own values.
 */
import type { Other } from './others.ts';
import type { Plane } from './plane.ts';
import { clamp } from './window.ts';

const tones = ({ data, sharp = data }: Plane): Float32Array => sharp;

/** What is known of each place. Arrays: columns × rows, row-major over the plane. */
export interface FoundSlopes {
  readonly columns: number;
  readonly rows: number;
  /** NaN where none was found. */
  readonly slopes: Float32Array;
  /** 1 where the slope is that of the place’s own surface. */
  readonly own: Uint8Array;
  /** Tone of the plane at the place; white is 1. */
  readonly tones: Float32Array;
}

export const toneAt = (plane: Plane, x: number, y: number): number =>
  tones(plane)[y * plane.width + x]!;

/** Places to each side that may lie on the same surface. */
const REACH = 2;
const SAME_TONE = 0.03;
/** A place that weighs less than this is of another tone. */
const LEAST_ALIKE = 0.3;
/** Places of just the same tone that those asked must weigh together, and how closely they must agree, in pixels. */
const WEIGHT_AT_LEAST = 1;
const APART_PX = 0.04;

/**
 * The slope, in pixels for an ordinary step, that places of the same tone around agree on; NaN where they do not, or
 * where there are too few of them.
 */
export const slopeAround = (found: FoundSlopes, column: number, row: number): number => {
  const { columns, rows } = found;
  const tone = found.tones[row * columns + column]!;
  let [weight, sum, squares] = [0, 0, 0];
  const seen = { left: Infinity, right: -Infinity, top: Infinity, foot: -Infinity };
  for (let y = Math.max(0, row - REACH); y <= Math.min(rows - 1, row + REACH); y += 1)
    for (let x = Math.max(0, column - REACH); x <= Math.min(columns - 1, column + REACH); x += 1) {
      const at = y * columns + x;
      if (found.own[at] !== 1 || Number.isNaN(found.slopes[at]!)) continue;
      const part = Math.exp(-Math.abs(found.tones[at]! - tone) / SAME_TONE);
      if (part <= LEAST_ALIKE) continue;
      weight += part;
      sum += part * found.slopes[at]!;
      squares += part * found.slopes[at]! ** 2;
      seen.left = Math.min(seen.left, x);
      seen.right = Math.max(seen.right, x);
      seen.top = Math.min(seen.top, y);
      seen.foot = Math.max(seen.foot, y);
    }
  // Along a bar the same mistake repeats, so they must stand in more than one column and row.
  if (weight < WEIGHT_AT_LEAST || seen.right <= seen.left || seen.foot <= seen.top) return NaN;
  const mean = sum / weight;
  return squares / weight - mean ** 2 <= APART_PX ** 2 ? mean : NaN;
};

/** The few pixels about the middle that must fit. */
const MIDDLE_PX = 2;
const MIDDLE_ALIKE = 0.06;
const MIDDLE_WEIGHT = 0.05;
/** Mean difference of a fit, and the most that one pixel counts. */
const FITS = 2 / 255;
const MISS_AT_MOST = 0.06;

const toneBetween = (plane: Plane, row: number, x: number): number => {
  const whole = Math.floor(x);
  const part = x - whole;
  const edge = plane.width - 1;
  const from = row * plane.width;
  const data = tones(plane);
  return (
    (1 - part) * data[from + clamp(whole, edge)]! + part * data[from + clamp(whole + 1, edge)]!
  );
};

/**
 * Whether the very middle of a place is seen where a slope puts it, in the frames to its left or in those to its right:
 * in the others something may cover it (Kang, Szeliski & Chai 2001).
 */
export const isSeenAlong = (
  plane: Plane,
  others: readonly Other[],
  [x, y]: readonly [number, number],
  slope: number,
): boolean => {
  const middle = toneAt(plane, x, y);
  const miss = [0, 0];
  const mass = [0, 0];
  for (let v = -MIDDLE_PX; v <= MIDDLE_PX; v += 1)
    for (let u = -MIDDLE_PX; u <= MIDDLE_PX; u += 1) {
      const row = clamp(y + v, plane.height - 1);
      const own = toneAt(plane, clamp(x + u, plane.width - 1), row);
      const weight = Math.exp(
        -Math.abs(own - middle) / MIDDLE_ALIKE - (u * u + v * v) / MIDDLE_PX ** 2,
      );
      if (weight < MIDDLE_WEIGHT) continue;
      for (const { plane: other, along, slip } of others) {
        const side = along < 0 ? 0 : 1;
        const there = toneBetween(other, row, x + u + slope * along + slip);
        miss[side] = miss[side]! + weight * Math.min(Math.abs(there - own), MISS_AT_MOST);
        mass[side] = mass[side]! + weight;
      }
    }
  return miss.some((sum, side) => mass[side]! > 0 && sum <= FITS * mass[side]!);
};
