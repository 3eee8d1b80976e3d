/** Matching a row of places at whole pixels: which displacements to try, and which of them fits best. */
import {
  FIRST,
  NOISE,
  RADIUS,
  ROW,
  SIZE,
  STEP,
  WINDOW,
  firstOf,
  heldX,
  heldY,
  meanOf,
  pitchOf,
  pixelAt,
  secondOf,
  templateOf,
  total,
  weightsOf,
} from './windows';

/** Half up, as Math.round. */
function rounded(value: f32): i32 {
  return <i32>Math.floor(2 * <f64>value + 0.5);
}

/** Adds a displacement to a list unless it is there. @returns where the list ends then. */
function added(list: usize, end: usize, dx: i32, dy: i32): usize {
  for (let at = list; at < end; at += 8)
    if (load<i32>(at) === dx && load<i32>(at, 4) === dy) return end;
  store<i32>(end, dx);
  store<i32>(end, dy, 4);
  return end + 8;
}

/**
 * The displacements to try at each place of a row, each once: twice the coarser level’s results at that place and
 * beside it, rounded, and no motion.
 * @param across f32[columns × rows] of the coarser level, pixels; likewise `along`
 * @param row of the coarser level, 0 … rows − 1
 * @param places of this level; two of them lie on one of the coarser
 * @param start u32[places + 1], written: place i has the entries from start[i] up to start[i + 1]
 * @param entries i32[2 for each], written: pixels right and down. At most 10 a place.
 */
export function startsRow(
  across: usize,
  along: usize,
  columns: i32,
  rows: i32,
  row: i32,
  places: i32,
  start: usize,
  entries: usize,
): void {
  let end = entries;
  store<u32>(start, 0);
  for (let place: i32 = 0; place < places; place += 1) {
    const middle = place >> 1;
    const list = end;
    for (let y = row - 1; y <= row + 1; y += 1)
      for (let x = middle - 1; x <= middle + 1; x += 1) {
        if (x < 0 || y < 0 || x >= columns || y >= rows) continue;
        const at = (<usize>(y * columns + x)) << 2;
        end = added(list, end, rounded(load<f32>(across + at)), rounded(load<f32>(along + at)));
      }
    end = added(list, end, 0, 0);
    start += 4;
    store<u32>(start, <u32>((end - entries) >> 3));
  }
}

/** Correlation of a template with the window at `at`. */
function likeness(
  at: usize,
  pitch: i32,
  weights: usize,
  template: usize,
  mean: f64,
  variance: f64,
): f64 {
  const means = f32x4.splat(<f32>mean);
  let sums = f32x4.splat(0);
  let squares = f32x4.splat(0);
  let together = f32x4.splat(0);
  let squares2 = f32x4.splat(0);
  let together2 = f32x4.splat(0);
  for (let row: i32 = 0; row < SIZE; row += 1, at += pitch, weights += ROW, template += ROW) {
    const a = f32x4.sub(v128.load(at), means);
    const b = f32x4.sub(v128.load(at, 16), means);
    const c = f32x4.sub(v128.load(at, 32), means);
    const d = f32x4.sub(v128.load(at, 48), means);
    const wa = f32x4.mul(a, v128.load(weights));
    const wb = f32x4.mul(b, v128.load(weights, 16));
    const wc = f32x4.mul(c, v128.load(weights, 32));
    const wd = f32x4.mul(d, v128.load(weights, 48));
    sums = f32x4.add(sums, f32x4.add(f32x4.add(wa, wb), f32x4.add(wc, wd)));
    squares = f32x4.add(squares, f32x4.add(f32x4.mul(wa, a), f32x4.mul(wb, b)));
    squares2 = f32x4.add(squares2, f32x4.add(f32x4.mul(wc, c), f32x4.mul(wd, d)));
    together = f32x4.add(
      together,
      f32x4.add(f32x4.mul(a, v128.load(template)), f32x4.mul(b, v128.load(template, 16))),
    );
    together2 = f32x4.add(
      together2,
      f32x4.add(f32x4.mul(c, v128.load(template, 32)), f32x4.mul(d, v128.load(template, 48))),
    );
  }
  const sum = total(sums);
  const other = total(f32x4.add(squares, squares2)) - sum * sum;
  return (
    total(f32x4.add(together, together2)) / Math.sqrt(variance * Math.max(other, NOISE * NOISE))
  );
}

/**
 * The best whole-pixel match of each place of a row, by zero-mean normalised cross-correlation of windows: the best of
 * its entries; then, up to `climbs` times, of the four pixels around what was best.
 * @param pictures as windows.ts describes
 * @param y of the places’ middles
 * @param start u32[places + 1], entries i32[2 for each], as `startsRow` writes them; at least one a place
 * @param out f32[4 a place]: pixels right and down, both whole; the weighted variance of the first picture’s window, or 0
 *   where that is mere noise, and then the place has its first entry; the fourth stays
 * @param scratch 960 bytes, and 8 for each entry of a place and each pixel climbed to
 */
export function wholeRow(
  pictures: usize,
  y: i32,
  places: i32,
  start: usize,
  entries: usize,
  climbs: i32,
  out: usize,
  scratch: usize,
): void {
  const pitch = pitchOf(pictures);
  const weights = weightsOf(pictures);
  let x = FIRST;
  for (let place: i32 = 0; place < places; place += 1, x += STEP, out += 16, start += 4) {
    const from = pixelAt(firstOf(pictures), pitch, x - RADIUS, y - RADIUS);
    const mean = meanOf(from, pitch, weights);
    const variance = templateOf(from, pitch, weights, mean, scratch);
    const tried = entries + ((<usize>load<u32>(start)) << 3);
    if (variance < NOISE * NOISE) {
      store<f32>(out, <f32>load<i32>(tried));
      store<f32>(out, <f32>load<i32>(tried, 4), 4);
      store<f32>(out, 0, 8);
      continue;
    }
    const list = scratch + WINDOW;
    let end = list;
    let most: f64 = -Infinity;
    let dx: i32 = 0;
    let dy: i32 = 0;
    const last = entries + ((<usize>load<u32>(start, 4)) << 3);
    for (let at = tried; at < last; at += 8) {
      end = added(list, end, load<i32>(at), load<i32>(at, 4));
      const alike = alikeAt(
        pictures,
        x + load<i32>(at),
        y + load<i32>(at, 4),
        scratch,
        mean,
        variance,
      );
      if (alike > most) {
        most = alike;
        dx = load<i32>(at);
        dy = load<i32>(at, 4);
      }
    }
    for (let climb: i32 = 0; climb < climbs; climb += 1) {
      const fromX = dx;
      const fromY = dy;
      for (let side: i32 = 0; side < 4; side += 1) {
        const nextX = fromX + (side === 0 ? -1 : side === 1 ? 1 : 0);
        const nextY = fromY + (side === 2 ? -1 : side === 3 ? 1 : 0);
        const longer = added(list, end, nextX, nextY);
        // What was tried before was not better.
        if (longer === end) continue;
        end = longer;
        const alike = alikeAt(pictures, x + nextX, y + nextY, scratch, mean, variance);
        if (alike > most) {
          most = alike;
          dx = nextX;
          dy = nextY;
        }
      }
      if (dx === fromX && dy === fromY) break;
    }
    store<f32>(out, <f32>dx);
    store<f32>(out, <f32>dy, 4);
    store<f32>(out, <f32>variance, 8);
  }
}

function alikeAt(pictures: usize, x: i32, y: i32, template: usize, mean: f64, variance: f64): f64 {
  const pitch = pitchOf(pictures);
  return likeness(
    pixelAt(secondOf(pictures), pitch, heldX(pictures, x) - RADIUS, heldY(pictures, y) - RADIUS),
    pitch,
    weightsOf(pictures),
    template,
    mean,
    variance,
  );
}
