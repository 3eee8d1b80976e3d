/**
 * The window of a place in a sequence, 9 × 9 pixels, each of which counts by how much it resembles the middle one; and
 * how far other frames differ from it. Windows are taken four numbers at once, 12 in a row; the last three weigh
 * nothing.
 */
import { pixelAt, total } from './windows';

export const REACH: i32 = 4;
const ROWS: i32 = 9;
/** Bytes of a window's row. */
const ROW: usize = 48;

/** How much pixels may differ from the middle one; white is 1 (our own values). */
const ALIKE: f32 = 0.06;
/** What weighs less is left out. */
const LEAST: f32 = 0.02;
/** A larger difference means another object, and counts no more than this. */
const MISS_AT_MOST: f32 = 0.03;
/** Gradient across the ribs below which a window has no texture: root mean square; white is 1. */
const TEXTURE: f64 = 2.0 / 255.0;
/** The same before softening, for the place’s own surface: over the whole window, and over either half. */
const OWN_TEXTURE: f64 = 1.3 / 255.0;
const TEXTURE_ASIDE: f64 = 1.0 / 255.0;
/** A larger gradient counts no more than this, so that one strong edge cannot pass for texture. */
const GRADIENT_AT_MOST: f32 = 3.0 / 255.0;

export const BARE: u32 = 0;
export const TEXTURED: u32 = 1;
export const OWN: u32 = 2;

/**
 * e to the power of four numbers, −80 … 0, to some 2e-7 of it: a whole power of two times the series of what is left,
 * which lies within half of ln 2.
 */
function exponential(x: v128): v128 {
  const held = f32x4.max(x, f32x4.splat(-80));
  const whole = f32x4.nearest(f32x4.mul(held, f32x4.splat(1.44269504)));
  // ln 2 in two parts, the first exact in few bits, so that the rest keeps its digits.
  const rest = f32x4.sub(
    f32x4.sub(held, f32x4.mul(whole, f32x4.splat(0.693359375))),
    f32x4.mul(whole, f32x4.splat(-0.00021219444)),
  );
  let sum = f32x4.splat(1.0 / 720.0);
  sum = f32x4.add(f32x4.mul(sum, rest), f32x4.splat(1.0 / 120.0));
  sum = f32x4.add(f32x4.mul(sum, rest), f32x4.splat(1.0 / 24.0));
  sum = f32x4.add(f32x4.mul(sum, rest), f32x4.splat(1.0 / 6.0));
  sum = f32x4.add(f32x4.mul(sum, rest), f32x4.splat(0.5));
  sum = f32x4.add(f32x4.mul(sum, rest), f32x4.splat(1));
  sum = f32x4.add(f32x4.mul(sum, rest), f32x4.splat(1));
  const power = i32x4.shl(i32x4.add(i32x4.trunc_sat_f32x4_s(whole), i32x4.splat(127)), 23);
  return f32x4.mul(sum, power);
}

/** Sum of the last three of four numbers. */
function lastThree(four: v128): f64 {
  return total(four) - first(four);
}
function first(four: v128): f64 {
  return <f64>f32x4.extract_lane(four, 0);
}

/**
 * Lays the window around a pixel.
 * @param soft address of pixel (0, 0) of the softened plane; `sharp` that of the plane as it was
 * @param nearness f32[9 × 12], the weight of each pixel of the window by its place
 * @param into for each four pixels of which one counts, 48 bytes: u32, bytes from the middle pixel to the first; then f32[4]
 *   at 16, the weights; and f32[4] at 32, the softened pixels. Weights of a window sum to 1. Up to 27 of them, and one beyond
 *   that weighs nothing.
 * @param count u32, written: how many fours there are
 * @returns BARE, TEXTURED, or OWN where the place’s own surface has texture to its left and to its right
 */
export function supportAt(
  soft: usize,
  sharp: usize,
  pitch: i32,
  x: i32,
  y: i32,
  nearness: usize,
  into: usize,
  count: usize,
): u32 {
  const middle = v128.load32_splat(pixelAt(sharp, pitch, x, y));
  const half = f32x4.splat(0.5);
  const least = f32x4.splat(LEAST);
  const steepest = f32x4.splat(GRADIENT_AT_MOST);
  const scale = f32x4.splat(-1 / ALIKE);
  let energy = f32x4.splat(0);
  // Of each of the three fours of a row: the middle column is the first of the second.
  let texture0 = f32x4.splat(0);
  let texture1 = f32x4.splat(0);
  let texture2 = f32x4.splat(0);
  let mass0 = f32x4.splat(0);
  let mass1 = f32x4.splat(0);
  let mass2 = f32x4.splat(0);
  let end = into;
  for (let row: i32 = -REACH; row < ROWS - REACH; row += 1)
    for (let four: i32 = 0; four < 3; four += 1, nearness += 16) {
      const column = (four << 2) - REACH;
      const away = <usize>(row * pitch + (column << 2));
      const at = pixelAt(sharp, pitch, x, y) + away;
      const before = v128.load(at - 4);
      const after = v128.load(at + 4);
      // A softened pixel shows its neighbours too: beside another surface it moves with that one.
      const unlike = f32x4.max(
        f32x4.abs(f32x4.sub(v128.load(at), middle)),
        f32x4.max(f32x4.abs(f32x4.sub(before, middle)), f32x4.abs(f32x4.sub(after, middle))),
      );
      const whole = f32x4.mul(exponential(f32x4.mul(unlike, scale)), v128.load(nearness));
      const weight = v128.and(whole, f32x4.ge(whole, least));
      if (!v128.any_true(weight)) continue;
      const plane = pixelAt(soft, pitch, x, y) + away;
      const slope = f32x4.mul(f32x4.sub(v128.load(plane + 4), v128.load(plane - 4)), half);
      energy = f32x4.add(energy, f32x4.mul(weight, f32x4.mul(slope, slope)));
      store<u32>(end, <u32>away);
      v128.store(end, weight, 16);
      v128.store(end, v128.load(plane), 32);
      end += 48;
      const steep = f32x4.min(f32x4.mul(f32x4.abs(f32x4.sub(after, before)), half), steepest);
      const texture = f32x4.mul(weight, f32x4.mul(steep, steep));
      if (four === 0) {
        texture0 = f32x4.add(texture0, texture);
        mass0 = f32x4.add(mass0, weight);
      } else if (four === 1) {
        texture1 = f32x4.add(texture1, texture);
        mass1 = f32x4.add(mass1, weight);
      } else {
        texture2 = f32x4.add(texture2, texture);
        mass2 = f32x4.add(mass2, weight);
      }
    }
  const leftMass = total(mass0);
  const rightMass = lastThree(mass1) + total(mass2);
  const mass = leftMass + first(mass1) + rightMass;
  const left = total(texture0);
  const right = lastThree(texture1) + total(texture2);
  const all = left + first(texture1) + right;
  const part = f32x4.splat(<f32>(1 / mass));
  for (let at = into; at < end; at += 48) v128.store(at, f32x4.mul(v128.load(at, 16), part), 16);
  // They are asked two at a time, so one that weighs nothing makes their number even.
  memory.fill(end, 0, 48);
  store<u32>(count, (<u32>((end - into) / 48) + 1) & ~1);
  if (total(energy) < TEXTURE * TEXTURE * mass) return BARE;
  return all >= OWN_TEXTURE * OWN_TEXTURE * mass &&
    left >= TEXTURE_ASIDE * TEXTURE_ASIDE * leftMass &&
    right >= TEXTURE_ASIDE * TEXTURE_ASIDE * rightMass
    ? OWN
    : TEXTURED;
}

/**
 * Mean difference of a window, each at most `MISS_AT_MOST`, to another frame.
 * @param at address of the frame’s pixel where the middle has moved to, whole
 * @param part the rest of the way to the right, 0 up to 1
 */
export function missOf(at: usize, part: f64, fours: usize, count: u32): f64 {
  const t = part;
  // Catmull–Rom (Keys 1981, a = −1/2). One fraction serves the whole window.
  const a = f32x4.splat(<f32>(t * (-0.5 + t * (1 - 0.5 * t))));
  const b = f32x4.splat(<f32>(1 + t * t * (-2.5 + 1.5 * t)));
  const c = f32x4.splat(<f32>(t * (0.5 + t * (2 - 1.5 * t))));
  const d = f32x4.splat(<f32>(t * t * (-0.5 + 0.5 * t)));
  const most = f32x4.splat(MISS_AT_MOST);
  let sum = f32x4.splat(0);
  let more = f32x4.splat(0);
  for (const end = fours + 48 * <usize>count; fours < end; fours += 96) {
    sum = f32x4.add(sum, missOfFour(at, a, b, c, d, most, fours));
    more = f32x4.add(more, missOfFour(at, a, b, c, d, most, fours + 48));
  }
  return total(f32x4.add(sum, more));
}

function missOfFour(at: usize, a: v128, b: v128, c: v128, d: v128, most: v128, four: usize): v128 {
  const there = at + load<u32>(four);
  const value = f32x4.add(
    f32x4.add(f32x4.mul(a, v128.load(there - 4)), f32x4.mul(b, v128.load(there))),
    f32x4.add(f32x4.mul(c, v128.load(there + 4)), f32x4.mul(d, v128.load(there + 8))),
  );
  const miss = f32x4.min(f32x4.abs(f32x4.sub(value, v128.load(four, 32))), most);
  return f32x4.mul(miss, v128.load(four, 16));
}
