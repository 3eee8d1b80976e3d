/** The slope by which each place of a row moves through a sequence of frames (src/core/frames/parallax/slope.ts). */
import { BARE, OWN, supportAt, missOf } from './support';
import { FIRST, STEP, pixelAt } from './windows';

/** Ordinary steps of the camera times this many pixels: how closely slopes are tried. */
const APART: f64 = 0.1;
const TRIED_AT_MOST: i32 = 80;
/** Rivals this far away must fit worse by this factor. */
const RIVAL: f64 = 0.13;
const CLEARLY: f64 = 0.8;

/** Where the scratch room keeps what, bytes: the window's fours, how many they are, and what each slope costs. */
const COUNT: usize = 28 * 48;
const COSTS: usize = COUNT + 16;
/** Of a slope: f64 its cost, Infinity where only some frames were asked; f64 their sums to the left and right; u32 the next. */
const COST: usize = 32;

/** What sums cost so far: the side that fits better decides; all frames together count for a fifth. */
function costOf(left: f64, right: f64, before: f64, after: f64): f64 {
  const all = (left + right) / (before + after);
  // A single frame on a side could fit by chance.
  if (before < 2 || after < 2) return all;
  return 0.8 * Math.min(left / before, right / after) + 0.2 * all;
}

/**
 * What a slope costs at the window that is laid in `scratch`, on top of what `entry` holds of it.
 * @param enough as soon as it costs more than this, whatever the frames not yet asked may say, they are not asked
 */
function cost(
  sequence: usize,
  x: i32,
  y: i32,
  slope: f64,
  enough: f64,
  scratch: usize,
  entry: usize,
): f64 {
  const pitch = load<i32>(sequence, 8);
  const least = <f64>load<i32>(sequence, 12);
  const most = <f64>load<i32>(sequence, 16);
  const end = endOf(sequence);
  const before = load<f64>(sequence, 32);
  const after = load<f64>(sequence, 40);
  const count = load<u32>(scratch, COUNT);
  let left = load<f64>(entry, 8);
  let right = load<f64>(entry, 16);
  let other: usize = load<u32>(entry, 24);
  let sum: f64 = 0;
  while (other < end && sum <= enough) {
    const along = load<f64>(other, 8);
    const moved = <f64>x + slope * along + load<f64>(other, 16);
    const held = Math.min(Math.max(moved, least), most);
    const whole = Math.floor(held);
    const at = pixelAt(load<u32>(other), pitch, <i32>whole, y);
    const miss = missOf(at, held - whole, scratch, count);
    if (along < 0) left += miss;
    else right += miss;
    sum = costOf(left, right, before, after);
    other += OTHER;
  }
  const told = other === end ? sum : Infinity;
  store<f64>(entry, told);
  store<f64>(entry, left, 8);
  store<f64>(entry, right, 16);
  store<u32>(entry, <u32>other, 24);
  return told;
}

/** Bytes of one other frame, and where their list begins and ends. */
const OTHER: usize = 24;
function othersOf(sequence: usize): u32 {
  return load<u32>(sequence, 20);
}
function endOf(sequence: usize): usize {
  return <usize>othersOf(sequence) + OTHER * <usize>load<u32>(sequence, 24);
}

/**
 * The best slope among evenly spaced ones, refined between three; NaN when another fits nearly as well, or when it lies
 * at an end.
 */
function bestSlope(sequence: usize, x: i32, y: i32, from: f64, to: f64, scratch: usize): f64 {
  const count = <i32>Math.min(<f64>TRIED_AT_MOST, Math.ceil((to - from) / APART) + 1);
  const step = (to - from) / <f64>(count - 1);
  const costs = scratch + COSTS;
  let best: i32 = -1;
  let least: f64 = Infinity;
  // From the middle outwards, where the best one usually is: what costs clearly more than it need not be told exactly.
  const middle = count >> 1;
  for (let n: i32 = 0; n < count; n += 1) {
    const i = (n & 1) === 0 ? middle + (n >> 1) : middle - 1 - (n >> 1);
    if (i < 0 || i >= count) continue;
    const entry = costs + COST * <usize>i;
    memory.fill(entry, 0, COST);
    store<u32>(entry, othersOf(sequence), 24);
    const slope = from + <f64>i * step;
    const here = cost(sequence, x, y, slope, least / CLEARLY, scratch, entry);
    if (here < least || (here === least && i < best)) {
      least = here;
      best = i;
    }
  }
  if (best <= 0 || best === count - 1) return NaN;
  for (let i: i32 = 0; i < count; i += 1) {
    const away = <f64>(i < best ? best - i : i - best) * step;
    if (away > RIVAL && least > CLEARLY * load<f64>(costs + COST * <usize>i)) return NaN;
  }
  const first = costs + COST * <usize>(best - 1);
  const last = costs + COST * <usize>(best + 1);
  let a = load<f64>(first);
  let c = load<f64>(last);
  if (a === Infinity)
    a = cost(sequence, x, y, from + <f64>(best - 1) * step, Infinity, scratch, first);
  if (c === Infinity)
    c = cost(sequence, x, y, from + <f64>(best + 1) * step, Infinity, scratch, last);
  const bend = a - 2 * least + c;
  const beside = bend > 0 ? (a - c) / (2 * bend) : 0;
  return from + (<f64>best + beside) * step;
}

/**
 * The slope of each place of a row, in pixels for an ordinary step of the camera.
 * @param sequence u32: address of pixel (0, 0) of the plane, of the plane before it was softened, bytes from row to row;
 *   i32: the least and the largest x of a window’s middle (windows.ts); u32: address of the other frames, how many they are, address of
 *   f32[9 × 12], the weight of pixels by their place (support.ts); f64: how many of the others lie to the left, and to
 *   the right. Each other, 24 bytes: u32 address of its pixel (0, 0), f64 at 8 its steps from the frame, below 0 to its
 *   left, f64 at 16 its slip, pixels.
 * @param y of the places’ middles
 * @param ranges f64[2 a place]: the least and the largest slope to try, apart from each other
 * @param out f32[2 a place]: the slope, NaN where none is told; and 1 where it is that of the place’s own surface
 * @param scratch 3920 bytes
 */
export function slopeRow(
  sequence: usize,
  y: i32,
  places: i32,
  ranges: usize,
  out: usize,
  scratch: usize,
): void {
  let x = FIRST;
  for (let place: i32 = 0; place < places; place += 1, x += STEP, ranges += 16, out += 8) {
    const shows = supportAt(
      load<u32>(sequence),
      load<u32>(sequence, 4),
      load<i32>(sequence, 8),
      x,
      y,
      load<u32>(sequence, 28),
      scratch,
      scratch + COUNT,
    );
    store<f32>(out, shows === OWN ? 1 : 0, 4);
    store<f32>(
      out,
      shows === BARE
        ? NaN
        : <f32>bestSlope(sequence, x, y, load<f64>(ranges), load<f64>(ranges, 8), scratch),
    );
  }
}
