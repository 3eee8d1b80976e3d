/**
 * What matching pictures shares: where the two pictures lie, and weighted windows of 15 × 15 pixels.
 *
 * Pictures are rows of f32, each row continued to both sides by its edge (src/core/frames/parallax/laid-rows.ts), so that no pixel
 * asks where the picture ends. Windows are taken four numbers at once, 16 in a row; the sixteenth weighs nothing.
 *
 * Two pictures are described by u32[8]: address of pixel (0, 0) of the first, which need not be laid; the same of the second;
 * bytes from row to row, of both; then i32: the least and the largest x of a window’s middle in the second, and of its y:
 * beyond them it is taken there, where all that it covers is edge already; and the address of the weights, f32[15 × 16], sum 1.
 */

export const RADIUS: i32 = 7;
export const SIZE: i32 = 15;
/** Bytes of a window’s row. */
export const ROW: usize = 64;
export const WINDOW: usize = 960;
/** Pixels from one place to the next, and to the middle of the first. */
export const STEP: i32 = 8;
export const FIRST: i32 = 4;
/** Grey differences below this are noise or rounding: two steps of 8 bits; white is 1. */
export const NOISE: f64 = 2.0 / 255.0;

export function firstOf(pictures: usize): usize {
  return load<u32>(pictures);
}
export function secondOf(pictures: usize): usize {
  return load<u32>(pictures, 4);
}
export function pitchOf(pictures: usize): i32 {
  return load<i32>(pictures, 8);
}
export function weightsOf(pictures: usize): usize {
  return load<u32>(pictures, 28);
}

export function heldX(pictures: usize, x: i32): i32 {
  return min(max(x, load<i32>(pictures, 12)), load<i32>(pictures, 16));
}
export function heldY(pictures: usize, y: i32): i32 {
  return min(max(y, load<i32>(pictures, 20)), load<i32>(pictures, 24));
}

/** Address of a pixel. */
export function pixelAt(picture: usize, pitch: i32, x: i32, y: i32): usize {
  return picture + <usize>(y * pitch + (x << 2));
}

/** Sum of four numbers. */
export function total(four: v128): f64 {
  return (
    <f64>f32x4.extract_lane(four, 0) +
    <f64>f32x4.extract_lane(four, 1) +
    (<f64>f32x4.extract_lane(four, 2) + <f64>f32x4.extract_lane(four, 3))
  );
}

/** The weighted mean of a window. @param at its upper left pixel. */
export function meanOf(at: usize, pitch: i32, weights: usize): f64 {
  let a = f32x4.splat(0);
  let b = f32x4.splat(0);
  for (let row: i32 = 0; row < SIZE; row += 1, at += pitch, weights += ROW) {
    a = f32x4.add(a, f32x4.mul(v128.load(at), v128.load(weights)));
    b = f32x4.add(b, f32x4.mul(v128.load(at, 16), v128.load(weights, 16)));
    a = f32x4.add(a, f32x4.mul(v128.load(at, 32), v128.load(weights, 32)));
    b = f32x4.add(b, f32x4.mul(v128.load(at, 48), v128.load(weights, 48)));
  }
  return total(f32x4.add(a, b));
}

/**
 * Each pixel of a window minus the weighted mean, times its weight.
 * @param at its upper left pixel
 * @param into f32[15 × 16]
 * @returns the weighted variance
 */
export function templateOf(at: usize, pitch: i32, weights: usize, mean: f64, into: usize): f64 {
  const means = f32x4.splat(<f32>mean);
  let squares = f32x4.splat(0);
  for (let row: i32 = 0; row < SIZE; row += 1, at += pitch)
    for (let i: usize = 0; i < ROW; i += 16, weights += 16, into += 16) {
      const apart = f32x4.sub(v128.load(at + i), means);
      const weighted = f32x4.mul(apart, v128.load(weights));
      v128.store(into, weighted);
      squares = f32x4.add(squares, f32x4.mul(weighted, apart));
    }
  return total(squares);
}

function min(a: i32, b: i32): i32 {
  return a < b ? a : b;
}
function max(a: i32, b: i32): i32 {
  return a > b ? a : b;
}
