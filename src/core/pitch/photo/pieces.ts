/** A reduced grey photo, and the dark pieces in it. */
import type { PhotoPixels, PhotoPoint } from './photo-terms.ts';

export interface Grey {
  readonly width: number;
  readonly height: number;
  /** Pixels of the photo for each pixel here. */
  readonly perPx: number;
  /** sRGB-encoded, 0 … 255: close to how dark it looks. */
  readonly value: Float32Array;
}

const LONG_SIDE = 1500;

/** Averages square blocks of whole pixels. */
export const smallGrey = ({ widthPx, heightPx, data }: PhotoPixels): Grey => {
  const perPx = Math.max(1, Math.round(Math.max(widthPx, heightPx) / LONG_SIDE));
  const width = Math.floor(widthPx / perPx);
  const height = Math.floor(heightPx / perPx);
  const value = new Float32Array(width * height);
  const share = 1 / (perPx * perPx * 4);
  // The sums are whole numbers below 2²⁴, which 32-bit floats hold exactly.
  for (let y = 0; y < height * perPx; y += 1) {
    const to = Math.floor(y / perPx) * width;
    let at = y * widthPx * 4;
    for (let x = 0; x < width; x += 1) {
      let sum = 0;
      for (let k = 0; k < perPx; k += 1, at += 4)
        sum += data[at]! + 2 * data[at + 1]! + data[at + 2]!;
      value[to + x]! += sum;
    }
  }
  for (let i = 0; i < value.length; i += 1) value[i]! *= share;
  return { width, height, perPx, value };
};

/** The maximum within `reach` each way, along rows (stride 1) or columns: van Herk’s running maximum. */
const runningMost = (
  from: Float32Array,
  lines: number,
  length: number,
  stride: number,
  lineStride: number,
  reach: number,
): Float32Array => {
  const out = new Float32Array(from.length);
  const wide = 2 * reach + 1;
  const padded = length + 2 * reach;
  const ahead = new Float32Array(padded);
  const back = new Float32Array(padded);
  for (let line = 0; line < lines; line += 1) {
    const base = line * lineStride;
    const at = (i: number) => {
      const k = i - reach;
      return k < 0 || k >= length ? 0 : from[base + k * stride]!;
    };
    for (let i = 0, most = 0; i < padded; i += 1) {
      const here = at(i);
      most = i % wide === 0 || here > most ? here : most;
      ahead[i] = most;
    }
    for (let i = padded - 1, most = 0; i >= 0; i -= 1) {
      const here = at(i);
      most = (i + 1) % wide === 0 || here > most ? here : most;
      back[i] = most;
    }
    for (let i = 0; i < length; i += 1) {
      const one = back[i]!;
      const other = ahead[i + wide - 1]!;
      out[base + i * stride] = one > other ? one : other;
    }
  }
  return out;
};

/** The brightest of what lies around each pixel. */
const brightestNear = ({ width, height, value }: Grey): Float32Array => {
  const reach = Math.max(6, Math.round(0.02 * Math.max(width, height)));
  const rows = runningMost(value, height, width, 1, width, reach);
  return runningMost(rows, width, height, width, 1, reach);
};

export interface Piece {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly area: number;
  readonly meanX: number;
  readonly meanY: number;
  /** Outermost point along each diagonal, clockwise from top left. */
  readonly extremes: readonly PhotoPoint[];
}

/** Connected pieces of some size that are darker than a share of the brightest nearby, for each share. */
export const darkPieces = (grey: Grey, shares: readonly number[]): Piece[][] => {
  const most = brightestNear(grey);
  return shares.map((share) => piecesBelow(grey, most, share));
};

const piecesBelow = (
  { width, height, value }: Grey,
  most: Float32Array,
  share: number,
): Piece[] => {
  const dark = new Uint8Array(width * height);
  for (let i = 0; i < dark.length; i += 1) dark[i] = value[i]! < share * most[i]! ? 1 : 0;
  const stack = new Int32Array(width * height);
  const pieces: Piece[] = [];
  for (let seed = 0; seed < dark.length; seed += 1) {
    if (dark[seed] !== 1) continue;
    const piece = gathered(dark, width, height, seed, stack);
    const { width: w, height: h } = piece;
    if (Math.min(w, h) >= 5 && Math.max(w, h) < 0.2 * Math.max(width, height)) pieces.push(piece);
  }
  return pieces;
};

/** Flood fill over eight neighbours; marks what it takes with 2. */
const gathered = (
  dark: Uint8Array,
  width: number,
  height: number,
  seed: number,
  stack: Int32Array,
): Piece => {
  let [top, bottom, left, right] = [height, 0, width, 0];
  let [area, sumX, sumY, depth] = [0, 0, 0, 1];
  const reach = [-Infinity, -Infinity, -Infinity, -Infinity];
  const extremes = [0, 0, 0, 0].map(() => ({ xPx: 0, yPx: 0 }));
  const signs = [-1, -1, 1, -1, 1, 1, -1, 1];
  stack[0] = seed;
  dark[seed] = 2;
  while (depth > 0) {
    depth -= 1;
    const at = stack[depth]!;
    const x = at % width;
    const y = (at - x) / width;
    area += 1;
    sumX += x + 0.5;
    sumY += y + 0.5;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
    for (let d = 0; d < 4; d += 1) {
      const [sx, sy] = [signs[2 * d]!, signs[2 * d + 1]!];
      // The outer corner of the pixel.
      const [cx, cy] = [x + 0.5 + sx / 2, y + 0.5 + sy / 2];
      if (sx * cx + sy * cy > reach[d]!) {
        reach[d] = sx * cx + sy * cy;
        extremes[d] = { xPx: cx, yPx: cy };
      }
    }
    for (let ny = Math.max(0, y - 1); ny <= Math.min(height - 1, y + 1); ny += 1)
      for (let nx = Math.max(0, x - 1); nx <= Math.min(width - 1, x + 1); nx += 1) {
        const next = ny * width + nx;
        if (dark[next] === 1) {
          dark[next] = 2;
          stack[depth] = next;
          depth += 1;
        }
      }
  }
  return {
    left,
    top,
    width: right - left + 1,
    height: bottom - top + 1,
    area,
    meanX: sumX / area,
    meanY: sumY / area,
    extremes,
  };
};

/**
 * Width of the sharpest edges as the standard deviation of a Gaussian, in pixels of `grey`: the steepest slope of a
 * step is its height / (σ √(2π)). From the steepest two in a thousand places.
 */
export const edgeSigmaPx = ({ width, height, value }: Grey): number => {
  const steps = new Uint32Array(256);
  const levels = new Uint32Array(256);
  let count = 0;
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x + 1 < width; x += 1) {
      const here = value[y * width + x]!;
      steps[Math.min(255, Math.abs(value[y * width + x + 1]! - here)) | 0]! += 1;
      levels[Math.min(255, here) | 0]! += 1;
      count += 1;
    }
  const at = (of: Uint32Array, share: number) => {
    let below = 0;
    for (let i = 0; i < 256; i += 1) if ((below += of[i]!) >= share * count) return i;
    return 255;
  };
  const height0 = at(levels, 0.99) - at(levels, 0.005);
  return height0 / Math.max(0.5, at(steps, 0.998) + 0.5) / Math.sqrt(2 * Math.PI);
};
