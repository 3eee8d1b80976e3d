/** Pictures brought to one size in linear light: averaged down, interpolated up. */
import { LINEAR_MAX, code8OfLinear, linearOfCode8 } from '../colour/srgb.ts';
import type { Picture } from './scene.ts';

/** Row-major RGB, 16 bit, linear light 0 … 65535; length columns × rows × 3. */
export interface LinearPicture {
  readonly light: Uint16Array<ArrayBuffer>;
  readonly columns: number;
  readonly rows: number;
}

/** The source samples of each target sample, and the share of each. */
interface Taps {
  readonly first: Int32Array;
  readonly count: Int32Array;
  /** `most` entries for each target sample; its shares sum to 1. */
  readonly share: Float64Array;
  readonly most: number;
}

const tapsFor = (from: number, to: number): Taps => {
  const step = from / to;
  const reach = Math.max(1, step);
  const most = Math.ceil(reach) + 2;
  const taps: Taps = {
    first: new Int32Array(to),
    count: new Int32Array(to),
    share: new Float64Array(to * most),
    most,
  };
  for (let target = 0; target < to; target += 1) {
    const middle = (target + 0.5) * step;
    const left = Math.max(0, Math.min(from - 1, Math.floor(middle - reach / 2 + 1e-9)));
    const right = Math.max(left, Math.min(from - 1, Math.ceil(middle + reach / 2 - 1e-9) - 1));
    let sum = 0;
    for (let source = left; source <= right; source += 1) {
      const share = Math.min(source + 1, middle + reach / 2) - Math.max(source, middle - reach / 2);
      taps.share[target * most + source - left] = Math.max(0, share);
      sum += Math.max(0, share);
    }
    for (let tap = 0; tap <= right - left; tap += 1)
      taps.share[target * most + tap] = taps.share[target * most + tap]! / sum;
    taps.first[target] = left;
    taps.count[target] = right - left + 1;
  }
  return taps;
};

const linear8 = linearOfCode8();

/** The picture at another size, as linear light. */
export const fitLinear = (picture: Picture, columns: number, rows: number): LinearPicture => {
  const across = tapsFor(picture.columns, columns);
  const down = tapsFor(picture.rows, rows);
  const narrow = new Float32Array(columns * picture.rows * 3);
  for (let row = 0; row < picture.rows; row += 1)
    for (let column = 0; column < columns; column += 1)
      for (let channel = 0; channel < 3; channel += 1) {
        let light = 0;
        const first = across.first[column]!;
        for (let tap = 0; tap < across.count[column]!; tap += 1)
          light +=
            across.share[column * across.most + tap]! *
            linear8[picture.pixels[(row * picture.columns + first + tap) * 4 + channel]!]!;
        narrow[(row * columns + column) * 3 + channel] = light;
      }
  const light = new Uint16Array(columns * rows * 3);
  const width = columns * 3;
  for (let row = 0; row < rows; row += 1) {
    const first = down.first[row]!;
    for (let at = 0; at < width; at += 1) {
      let sum = 0;
      for (let tap = 0; tap < down.count[row]!; tap += 1)
        sum += down.share[row * down.most + tap]! * narrow[(first + tap) * width + at]!;
      light[row * width + at] = Math.min(LINEAR_MAX, Math.round(sum));
    }
  }
  return { light, columns, rows };
};

const code8 = code8OfLinear();

/** Encodes linear light (RGB, 16 bit) as a picture. */
export const encoded = (light: Uint16Array, columns: number, rows: number): Picture => {
  const pixels = new Uint8Array(columns * rows * 4).fill(255);
  for (let from = 0, to = 0; from < light.length; from += 3, to += 4)
    for (let c = 0; c < 3; c += 1) pixels[to + c] = code8[light[from + c]!]!;
  return { pixels, columns, rows };
};

/** The picture at another size; the same object if it has that size. */
export const fitPicture = (picture: Picture, columns: number, rows: number): Picture =>
  picture.columns === columns && picture.rows === rows
    ? picture
    : encoded(fitLinear(picture, columns, rows).light, columns, rows);
