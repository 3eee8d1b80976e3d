/**
 * Makes frames between two neighbours: warps each towards the other by its own disparity, and blends what both show
 * by nearness in the sequence. What only one of them shows comes from that one.
 */
import type { ReducedFrame } from '../../weave/reduce.ts';
import type { MatchField } from '../parallax/match.ts';
import { PLACE_STEP_PX } from '../parallax/match.ts';
import type { Plane } from '../parallax/plane.ts';
import type { MadePicture } from './view.ts';
import { viewFrom } from './view.ts';

const RADIUS_PX = 1;
/** A place one step further away must fit better by this grey difference; white is 1. */
const AWAY_COST = 0.004;

/** Mean difference over 3 × 3 pixels when (x, y) of `from` moves across by dx. */
const misfit = (from: Plane, to: Plane, x: number, y: number, dx: number): number => {
  const { width, height } = from;
  const whole = Math.floor(dx);
  const share = dx - whole;
  let sum = 0;
  for (let v = -RADIUS_PX; v <= RADIUS_PX; v += 1) {
    const line = Math.min(height - 1, Math.max(0, y + v)) * width;
    for (let u = -RADIUS_PX; u <= RADIUS_PX; u += 1) {
      const at = Math.min(width - 1, Math.max(0, x + u));
      const left = Math.min(width - 1, Math.max(0, x + u + whole));
      const right = Math.min(width - 1, left + 1);
      const there = (1 - share) * to.data[line + left]! + share * to.data[line + right]!;
      sum += Math.abs(from.data[line + at]! - there);
    }
  }
  return sum / 9;
};

/**
 * How far every pixel moves, from places matched on a grid. Each pixel takes the motion of the nearby place that fits
 * it best, so that edges between depths stay where the picture has them. Yields every 16 rows.
 * @returns pixels to the right, row-major, size of the planes.
 */
export function* shiftOfPixels(
  from: Plane,
  to: Plane,
  field: MatchField,
): Generator<undefined, Float32Array> {
  const { width, height } = from;
  const out = new Float32Array(width * height);
  for (let y = 0; y < height; y += 1) {
    const row = Math.min(field.rows - 1, Math.floor(y / PLACE_STEP_PX));
    for (let x = 0; x < width; x += 1) {
      const column = Math.min(field.columns - 1, Math.floor(x / PLACE_STEP_PX));
      let [least, best] = [Infinity, 0];
      for (let v = Math.max(0, row - 1); v <= Math.min(field.rows - 1, row + 1); v += 1)
        for (
          let u = Math.max(0, column - 1);
          u <= Math.min(field.columns - 1, column + 1);
          u += 1
        ) {
          const dx = field.dx[v * field.columns + u]!;
          const cost =
            misfit(from, to, x, y, dx) + AWAY_COST * (Math.abs(u - column) + Math.abs(v - row));
          if (cost < least) [least, best] = [cost, dx];
        }
      out[y * width + x] = best;
    }
    if (y % 16 === 0) yield;
  }
  return out;
}

/** A frame, and how far each of its pixels moves to the other frame, right positive. */
export interface MovingFrame {
  readonly picture: ReducedFrame;
  readonly shift: Float32Array;
}

/** Two frames that differ by more than this in the square root of light (white: 255) are not blended. */
const UNLIKE = 24;

/** The nearer of two values that show different things, otherwise their mean by `share` of the second. */
const blendOf = (a: number, b: number, share: number, apart: boolean): number =>
  apart ? (share < 0.5 ? a : b) : a + share * (b - a);

const blend = (first: MadePicture, second: MadePicture, t: number): MadePicture => {
  const { pixels, holes } = first;
  for (let i = 0; i < holes.length; i += 1) {
    const [inFirst, inSecond] = [255 - holes[i]!, 255 - second.holes[i]!];
    const seen = (1 - t) * inFirst + t * inSecond;
    const share = seen > 0 ? (t * inSecond) / seen : t;
    let most = 0;
    for (let c = 3 * i; c < 3 * i + 3; c += 1)
      most = Math.max(most, Math.abs(Math.sqrt(pixels[c]!) - Math.sqrt(second.pixels[c]!)));
    const apart = most > UNLIKE && inFirst === 255 && inSecond === 255;
    for (let c = 3 * i; c < 3 * i + 3; c += 1)
      pixels[c] = blendOf(pixels[c]!, second.pixels[c]!, share, apart) + 0.5;
    holes[i] = Math.min(holes[i]!, second.holes[i]!);
  }
  return first;
};

/**
 * @param t place between the frames: 0 is the first, 1 the second. The first camera is further left, so that what
 *   moves further to the right is further away (relation 6).
 */
export function* frameBetween(
  first: MovingFrame,
  second: MovingFrame,
  t: number,
): Generator<undefined, MadePicture> {
  const back = second.shift.map((dx) => -dx);
  const fromFirst = yield* viewFrom(first.picture, first.shift, { slide: t, keyPart: 0 });
  const fromSecond = yield* viewFrom(second.picture, back, { slide: t - 1, keyPart: 0 });
  return blend(fromFirst, fromSecond, t);
}
