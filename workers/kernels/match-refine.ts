/** Refining matches below a pixel. */
import {
  FIRST,
  NOISE,
  RADIUS,
  ROW,
  SIZE,
  STEP,
  WINDOW,
  firstOf,
  meanOf,
  pitchOf,
  pixelAt,
  secondOf,
  templateOf,
  total,
  weightsOf,
} from './windows';

const STEPS_AT_MOST: i32 = 6;
const SETTLED: f64 = 0.005;
/** Beyond this, refinement has left the whole-pixel match for another place. */
const STRAYED: f64 = 1.5;

/** Where the scratch room keeps what: three windows, each number times its weight, and then sums. */
const SLOPES_X: usize = WINDOW;
const SLOPES_Y: usize = 2 * WINDOW;
const SUMS: usize = 3 * WINDOW;

/** Weight of the pixel `number` of four, at fraction t between the middle two: Catmull–Rom (Keys 1981, a = −1/2). */
function cubic(t: f64, number: i32): v128 {
  if (number === 0) return f32x4.splat(<f32>(t * (-0.5 + t * (1 - 0.5 * t))));
  if (number === 1) return f32x4.splat(<f32>(1 + t * t * (-2.5 + 1.5 * t)));
  if (number === 2) return f32x4.splat(<f32>(t * (0.5 + t * (2 - 1.5 * t))));
  return f32x4.splat(<f32>(t * t * (-0.5 + 0.5 * t)));
}

/** Slopes of the first picture times their weights, into `scratch`; after them xx, xy, yy and the sums of x and y, f64. */
function slopes(at: usize, pitch: i32, weights: usize, scratch: usize): void {
  const half = f32x4.splat(0.5);
  let xx = f32x4.splat(0);
  let xy = f32x4.splat(0);
  let yy = f32x4.splat(0);
  let sumX = f32x4.splat(0);
  let sumY = f32x4.splat(0);
  let into = scratch;
  for (let row: i32 = 0; row < SIZE; row += 1, at += pitch)
    for (let i: usize = 0; i < ROW; i += 16, weights += 16, into += 16) {
      const here = at + i;
      const weight = v128.load(weights);
      const x = f32x4.mul(f32x4.sub(v128.load(here + 4), v128.load(here - 4)), half);
      const y = f32x4.mul(f32x4.sub(v128.load(here + pitch), v128.load(here - pitch)), half);
      const weightedX = f32x4.mul(weight, x);
      const weightedY = f32x4.mul(weight, y);
      v128.store(into + SLOPES_X, weightedX);
      v128.store(into + SLOPES_Y, weightedY);
      xx = f32x4.add(xx, f32x4.mul(weightedX, x));
      xy = f32x4.add(xy, f32x4.mul(weightedX, y));
      yy = f32x4.add(yy, f32x4.mul(weightedY, y));
      sumX = f32x4.add(sumX, weightedX);
      sumY = f32x4.add(sumY, weightedY);
    }
  store<f64>(scratch, total(xx), SUMS);
  store<f64>(scratch, total(xy), SUMS + 8);
  store<f64>(scratch, total(yy), SUMS + 16);
  store<f64>(scratch, total(sumX), SUMS + 24);
  store<f64>(scratch, total(sumY), SUMS + 32);
}

/** Where `compare` leaves its sums, f64, after those of `slopes`. */
const MEAN: usize = SUMS + 40;
const SQUARES: usize = SUMS + 48;
const TOGETHER: usize = SUMS + 56;
const WITH_X: usize = SUMS + 64;
const WITH_Y: usize = SUMS + 72;

/**
 * Sums over the second picture’s window, interpolated at a point and less `mean`: of itself and its square, weighted,
 * and of its products with the template and with the slopes.
 * @param at the pixel above and to the left of where the window’s upper left lies, whole
 * @param x the rest, 0 up to 1; likewise `y`
 */
function compare(
  at: usize,
  pitch: i32,
  x: f64,
  y: f64,
  weights: usize,
  mean: f64,
  scratch: usize,
): void {
  const means = f32x4.splat(<f32>mean);
  const a = cubic(x, 0);
  const b = cubic(x, 1);
  const c = cubic(x, 2);
  const d = cubic(x, 3);
  const e = cubic(y, 0);
  const f = cubic(y, 1);
  const g = cubic(y, 2);
  const h = cubic(y, 3);
  let sums = f32x4.splat(0);
  let squares = f32x4.splat(0);
  let together = f32x4.splat(0);
  let withX = f32x4.splat(0);
  let withY = f32x4.splat(0);
  for (let i: usize = 0; i < ROW; i += 16) {
    let line = at + i;
    let one = across(line, a, b, c, d);
    line += pitch;
    let two = across(line, a, b, c, d);
    line += pitch;
    let three = across(line, a, b, c, d);
    line += pitch;
    const last = scratch + i + WINDOW;
    let weight = weights + i;
    for (let own = scratch + i; own < last; own += ROW, weight += ROW, line += pitch) {
      const four = across(line, a, b, c, d);
      const value = f32x4.sub(
        f32x4.add(
          f32x4.add(f32x4.mul(e, one), f32x4.mul(f, two)),
          f32x4.add(f32x4.mul(g, three), f32x4.mul(h, four)),
        ),
        means,
      );
      one = two;
      two = three;
      three = four;
      const weighted = f32x4.mul(value, v128.load(weight));
      sums = f32x4.add(sums, weighted);
      squares = f32x4.add(squares, f32x4.mul(weighted, value));
      together = f32x4.add(together, f32x4.mul(value, v128.load(own)));
      withX = f32x4.add(withX, f32x4.mul(value, v128.load(own, SLOPES_X)));
      withY = f32x4.add(withY, f32x4.mul(value, v128.load(own, SLOPES_Y)));
    }
  }
  store<f64>(scratch, total(sums), MEAN);
  store<f64>(scratch, total(squares), SQUARES);
  store<f64>(scratch, total(together), TOGETHER);
  store<f64>(scratch, total(withX), WITH_X);
  store<f64>(scratch, total(withY), WITH_Y);
}

/** Four numbers between those of a row. */
function across(at: usize, a: v128, b: v128, c: v128, d: v128): v128 {
  return f32x4.add(
    f32x4.add(f32x4.mul(a, v128.load(at)), f32x4.mul(b, v128.load(at, 4))),
    f32x4.add(f32x4.mul(c, v128.load(at, 8)), f32x4.mul(d, v128.load(at, 12))),
  );
}

/** A displaced point, held where the picture is laid. */
function held(pictures: usize, value: f64, axis: usize): f64 {
  const least = <f64>load<i32>(pictures + axis, 12);
  const most = <f64>load<i32>(pictures + axis, 16);
  return Math.min(Math.max(value, least), most);
}

/**
 * Refines the match of each place of a row: Gauss–Newton steps with the first window’s own gradients (inverse
 * compositional alignment, Baker & Matthews 2004), whatever the gain and offset of brightness.
 * @param pictures as windows.ts describes
 * @param y of the places’ middles
 * @param out f32[4 a place], as `wholeRow` left it; then pixels right and down; the correlation there, −1 … 1, 0 where
 *   refinement strayed; and the error of the first to expect from the residual, pixels, or Infinity where nothing tells it
 * @param scratch 2960 bytes
 */
export function refineRow(pictures: usize, y: i32, places: i32, out: usize, scratch: usize): void {
  let x = FIRST;
  for (let place: i32 = 0; place < places; place += 1, x += STEP, out += 16) {
    if (load<f32>(out, 8) > 0) refined(pictures, x, y, out, scratch);
    else {
      store<f32>(out, 0, 8);
      store<f32>(out, Infinity, 12);
    }
  }
}

function refined(pictures: usize, x: i32, y: i32, out: usize, scratch: usize): void {
  const pitch = pitchOf(pictures);
  const weights = weightsOf(pictures);
  const from = pixelAt(firstOf(pictures), pitch, x - RADIUS, y - RADIUS);
  const mean = meanOf(from, pitch, weights);
  const variance = templateOf(from, pitch, weights, mean, scratch);
  slopes(from, pitch, weights, scratch);
  const xx = load<f64>(scratch, SUMS);
  const xy = load<f64>(scratch, SUMS + 8);
  const yy = load<f64>(scratch, SUMS + 16);
  // A larger diagonal keeps dy small where only upright edges are visible.
  const stiff = yy + 1e-2 * xx + 1e-9;
  const determinant = xx * stiff - xy * xy;
  // The first picture’s own share of what the steps are solved from.
  compare(from - 4 - pitch, pitch, 0, 0, weights, mean, scratch);
  const ownX = load<f64>(scratch, WITH_X);
  const ownY = load<f64>(scratch, WITH_Y);
  const startX = <f64>load<f32>(out);
  const startY = <f64>load<f32>(out, 4);
  let dx = startX;
  let dy = startY;
  let likeness: f64 = -1;
  let residual = variance;
  for (let step: i32 = 0; step < STEPS_AT_MOST; step += 1) {
    const atX = held(pictures, <f64>x + dx, 0);
    const atY = held(pictures, <f64>y + dy, 8);
    const left = Math.floor(atX);
    const top = Math.floor(atY);
    const corner = pixelAt(
      secondOf(pictures),
      pitch,
      <i32>left - RADIUS - 1,
      <i32>top - RADIUS - 1,
    );
    compare(corner, pitch, atX - left, atY - top, weights, mean, scratch);
    const apart = load<f64>(scratch, MEAN);
    const other = Math.max(load<f64>(scratch, SQUARES) - apart * apart, 1e-12);
    const together = load<f64>(scratch, TOGETHER);
    likeness = together / Math.sqrt(variance * other);
    const gain = together > 0 ? together / other : 1;
    residual = variance - 2 * gain * together + gain * gain * other;
    if (!(determinant > 0)) break;
    const bx = ownX - gain * (load<f64>(scratch, WITH_X) - apart * load<f64>(scratch, SUMS + 24));
    const by = ownY - gain * (load<f64>(scratch, WITH_Y) - apart * load<f64>(scratch, SUMS + 32));
    const moveX = (stiff * bx - xy * by) / determinant;
    const moveY = (xx * by - xy * bx) / determinant;
    const length = Math.sqrt(moveX * moveX + moveY * moveY);
    const scale = length > 1 ? 1 / length : 1;
    dx += moveX * scale;
    dy += moveY * scale;
    if (length < SETTLED) break;
  }
  const strayed = Math.abs(dx - startX) > STRAYED || Math.abs(dy - startY) > STRAYED;
  const slope = determinant > 0 ? determinant / stiff : 0;
  const noise = Math.max(Math.sqrt(Math.max(residual, 0)), NOISE / 4);
  store<f32>(out, <f32>(strayed ? startX : dx));
  store<f32>(out, <f32>(strayed ? startY : dy), 4);
  store<f32>(out, <f32>(strayed ? 0 : likeness), 8);
  store<f32>(
    out,
    <f32>(strayed || slope <= 0 ? Infinity : noise / Math.sqrt(slope) / <f64>RADIUS),
    12,
  );
}
