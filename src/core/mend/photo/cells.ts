/**
 * How much each cell of the photo looks like each view: compares the rectified photo with the picture at every place
 * u. Brightness, contrast and tint are free in each cell, so lamp, paper and camera need not be known; only the
 * pattern counts.
 */
import { linearToSrgb, srgbToLinear } from '../../colour/srgb.ts';
import type { Blur, SlotShare } from '../../lens/mix.ts';
import { mix } from '../../lens/mix.ts';
import type { Homography } from '../../pitch/photo/camera.ts';
import type { PhotoPixels } from '../../pitch/photo/photo-terms.ts';
import type { SeenFrames } from '../seen.ts';

/** Three planes of sRGB-encoded brightness, 0 … 1: row-major, width × height. */
export interface Planes {
  readonly width: number;
  readonly height: number;
  readonly channels: readonly [Float32Array, Float32Array, Float32Array];
}

const LINEAR = Float32Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255));

/** Steps of linear light in the table. */
const GRADES = 4096;
const GRADED = Float32Array.from({ length: GRADES + 1 }, (_, i) => linearToSrgb(i / GRADES));
const graded = (light: number): number =>
  GRADED[Math.min(GRADES, Math.max(0, Math.round(light * GRADES)))]!;

/**
 * The rectified print, `width` × `height` places, each the mean light of its area.
 * @param h from shares of the print (0 … 1, right and down from its top left) to photo pixels.
 */
export const straightened = (
  { widthPx, heightPx, data }: PhotoPixels,
  h: Homography,
  width: number,
  height: number,
): Planes => {
  const channels = [0, 1, 2].map(() => new Float32Array(width * height));
  // Enough samples a place to meet each pixel of the photo about once.
  const photoArea = Math.abs(widthPx * heightPx) / (width * height);
  const per = Math.min(6, Math.max(2, Math.ceil(Math.sqrt(photoArea))));
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      let [r, g, b] = [0, 0, 0];
      for (let k = 0; k < per * per; k += 1) {
        const sx = (x + ((k % per) + 0.5) / per) / width;
        const sy = (y + (Math.floor(k / per) + 0.5) / per) / height;
        const depth = h[6]! * sx + h[7]! * sy + h[8]!;
        const px = Math.floor((h[0]! * sx + h[1]! * sy + h[2]!) / depth);
        const py = Math.floor((h[3]! * sx + h[4]! * sy + h[5]!) / depth);
        const at =
          (Math.min(heightPx - 1, Math.max(0, py)) * widthPx +
            Math.min(widthPx - 1, Math.max(0, px))) *
          4;
        r += LINEAR[data[at]!]!;
        g += LINEAR[data[at + 1]!]!;
        b += LINEAR[data[at + 2]!]!;
      }
      const to = y * width + x;
      channels[0]![to] = graded(r / (per * per));
      channels[1]![to] = graded(g / (per * per));
      channels[2]![to] = graded(b / (per * per));
    }
  return { width, height, channels: channels as unknown as Planes['channels'] };
};

/** The whole picture with the same u everywhere. */
export const pictureAt = (frames: SeenFrames, u: number, blur: Blur): Planes => {
  const shares = mix(u, frames.slots.length, blur);
  return pictureOfPlaces(frames, () => shares);
};

/** @param sharesAt of the view slots at a place, −½ … ½ of the picture across the ribs and along them. */
export const pictureOfPlaces = (
  frames: SeenFrames,
  sharesAt: (x: number, y: number) => readonly SlotShare[],
): Planes => {
  const { across, along, lying, slots } = frames;
  const [width, height] = lying ? [along, across] : [across, along];
  const channels = [0, 1, 2].map(() => new Float32Array(width * height));
  for (let j = 0; j < along; j += 1)
    for (let i = 0; i < across; i += 1) {
      const shares = sharesAt((i + 0.5) / across - 0.5, (j + 0.5) / along - 0.5);
      const from = (j * across + i) * 3;
      const to = lying ? i * width + j : j * width + i;
      for (let c = 0; c < 3; c += 1) {
        let light = 0;
        for (const { slot, share } of shares) light += share * slots[slot]![from + c]!;
        channels[c]![to] = graded(light / 65535);
      }
    }
  return { width, height, channels: channels as unknown as Planes['channels'] };
};

/** Cells over the picture: windows of `size` places, `step` places apart. */
export interface CellGrid {
  readonly columns: number;
  readonly rows: number;
  readonly size: number;
  readonly step: number;
}

export const cellGrid = (width: number, height: number, size: number, step: number): CellGrid => ({
  columns: Math.floor((width - size) / step) + 1,
  rows: Math.floor((height - size) / step) + 1,
  size,
  step,
});

/** Middle of a cell, −½ … ½ of the picture. */
export const cellMiddle = (cell: number, size: number, step: number, places: number): number =>
  (cell * step + size / 2) / places - 0.5;

/** Running sums of the last picture, reused between calls: all pictures have one size. */
let heap = new Float64Array(0);

/** Sum over each cell’s window of one plane, or of the product of two. */
const cellSums = (
  one: Float32Array,
  two: Float32Array | undefined,
  width: number,
  height: number,
  grid: CellGrid,
): Float64Array => {
  const stride = width + 1;
  if (heap.length !== stride * (height + 1)) heap = new Float64Array(stride * (height + 1));
  for (let y = 0, at = 0; y < height; y += 1) {
    let row = 0;
    for (let x = 0, to = (y + 1) * stride + 1; x < width; x += 1, at += 1, to += 1) {
      row += two === undefined ? one[at]! : one[at]! * two[at]!;
      heap[to] = heap[to - stride]! + row;
    }
  }
  const sums = new Float64Array(grid.columns * grid.rows);
  for (let j = 0; j < grid.rows; j += 1)
    for (let i = 0; i < grid.columns; i += 1) {
      const [left, top] = [i * grid.step, j * grid.step];
      const [right, bottom] = [left + grid.size, top + grid.size];
      sums[j * grid.columns + i] =
        heap[bottom * stride + right]! -
        heap[top * stride + right]! -
        heap[bottom * stride + left]! +
        heap[top * stride + left]!;
    }
  return sums;
};

/** Sums of the photo that all candidates use. */
export interface PhotoSums {
  readonly photo: Planes;
  readonly grid: CellGrid;
  readonly first: readonly Float64Array[];
  /** Variance × count, for each channel. */
  readonly spread: readonly Float64Array[];
}

export const photoSums = (photo: Planes, grid: CellGrid): PhotoSums => {
  const count = grid.size * grid.size;
  const { width, height } = photo;
  const first = photo.channels.map((plane) => cellSums(plane, undefined, width, height, grid));
  const spread = photo.channels.map((plane, c) =>
    cellSums(plane, plane, width, height, grid).map((sum, i) => sum - first[c]![i]! ** 2 / count),
  );
  return { photo, grid, first, spread };
};

/** Variance that noise, grain and an inexact corner leave unexplained at one place (our own value). */
const NOISE = 0.01 ** 2;

/**
 * For each cell, the mean square that a candidate leaves unexplained. Gain (above 0) and level are free in each
 * channel; noise is added, so it is never 0.
 */
export const unexplained = (sums: PhotoSums, candidate: Planes): Float32Array => {
  const { photo, grid, first, spread } = sums;
  const count = grid.size * grid.size;
  const { width, height } = photo;
  const out = new Float32Array(grid.columns * grid.rows);
  candidate.channels.forEach((plane, c) => {
    const mean = cellSums(plane, undefined, width, height, grid);
    const square = cellSums(plane, plane, width, height, grid);
    const cross = cellSums(plane, photo.channels[c], width, height, grid);
    for (let i = 0; i < out.length; i += 1) {
      const own = square[i]! - mean[i]! ** 2 / count;
      const both = cross[i]! - (mean[i]! * first[c]![i]!) / count;
      const explained = both > 0 ? both ** 2 / (own + count * NOISE) : 0;
      out[i]! += Math.max(0, spread[c]![i]! - explained) / count;
    }
  });
  return out.map((left) => left + 3 * NOISE);
};
