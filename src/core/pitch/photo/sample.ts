/**
 * The bands from the photo, rectified and evened out: reflectance against the white beside them. Two running means
 * one rib wide remove the ribs and keep the fringes.
 */
import { srgbToLinear } from '../../colour/srgb.ts';
import { MM_PER_INCH } from '../../units/units.ts';
import type { DotBox } from '../painted-rows.ts';
import type { StripLayout } from '../strip-layout.ts';
import type { StripSpec } from '../strip.ts';
import type { Homography, StripPlane } from './camera.ts';
import type { PhotoCorners, PhotoPixels } from './photo-terms.ts';
import type { Grey } from './pieces.ts';
import { solve } from '../../numeric/solve.ts';

/** Light of each 8-bit code, 0 … 1. */
export const LINEAR = Float32Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255));

/** Places along a row. */
export const PLACES = 180;
/** Rows that a band is divided into. */
export const ROWS = 4;
const EDGE_MM = 1;
/** Light from which a channel may be clipped. */
const CLIPPED = LINEAR[252]!;

/** A rectangle of the plane, mm. */
export interface PlaneBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const planeBox = (spec: StripSpec, plane: StripPlane, box: DotBox): PlaneBox => ({
  left: plane.originX + (box.acrossFirst * MM_PER_INCH) / spec.acrossDpi,
  right: plane.originX + (box.acrossLast * MM_PER_INCH) / spec.acrossDpi,
  top: plane.originY + (box.alongFirst * MM_PER_INCH) / spec.alongDpi,
  bottom: plane.originY + (box.alongLast * MM_PER_INCH) / spec.alongDpi,
});

/** One row of a band: RGB light at evenly spaced places, index place × 3 + channel. */
export interface SampledRow {
  readonly y: number;
  readonly x: Float64Array;
  readonly light: Float64Array;
  /** Share of the samples at a place that were clipped, 0 … 1. */
  readonly clipped: Float64Array;
}

/** Running mean over `wide` samples (fractional), from running sums; shorter at the ends. */
const smooth = (line: Float64Array, wide: number): Float64Array => {
  const n = line.length;
  const heap = new Float64Array(n + 1);
  for (let i = 0; i < n; i += 1) heap[i + 1] = heap[i]! + line[i]!;
  const heapAt = (at: number) => {
    const whole = Math.min(n - 1, Math.floor(at));
    return heap[whole]! + line[whole]! * (at - whole);
  };
  return line.map((_, i) => {
    // Shrinks evenly at the ends, so that a slope stays a slope.
    const half = Math.min(wide / 2, i + 0.5, n - i - 0.5);
    return (heapAt(i + 0.5 + half) - heapAt(i + 0.5 - half)) / (2 * half);
  });
};

/** Mean light of a box, smoothed over a rib, at PLACES places. */
export const sampleRow = (
  pixels: PhotoPixels,
  h: Homography,
  box: PlaneBox,
  pxPerMm: number,
  ribMm: number,
): SampledRow => {
  const { widthPx, heightPx, data } = pixels;
  const count = Math.max(PLACES, Math.ceil((box.right - box.left) * pxPerMm));
  const lines = Math.max(1, Math.round((box.bottom - box.top) * pxPerMm * 0.7));
  const sums = [0, 1, 2, 3].map(() => new Float64Array(count));
  const [red, green, blue, lost] = sums as [Float64Array, Float64Array, Float64Array, Float64Array];
  const step = (box.right - box.left) / count;
  for (let line = 0; line < lines; line += 1) {
    const y = box.top + ((line + 0.5) * (box.bottom - box.top)) / lines;
    for (let i = 0; i < count; i += 1) {
      const x = box.left + (i + 0.5) * step;
      const depth = h[6]! * x + h[7]! * y + h[8]!;
      const px = Math.floor((h[0]! * x + h[1]! * y + h[2]!) / depth);
      const py = Math.floor((h[3]! * x + h[4]! * y + h[5]!) / depth);
      if (!(px >= 0 && py >= 0 && px < widthPx && py < heightPx)) {
        lost[i]! += 1;
        continue;
      }
      const at = (py * widthPx + px) * 4;
      const r = LINEAR[data[at]!]!;
      const g = LINEAR[data[at + 1]!]!;
      const b = LINEAR[data[at + 2]!]!;
      red[i]! += r;
      green[i]! += g;
      blue[i]! += b;
      if (r >= CLIPPED && g >= CLIPPED && b >= CLIPPED) lost[i]! += 1;
    }
  }
  const wide = Math.max(1, ribMm / step);
  const smoothed = sums.map((line) => smooth(smooth(line, wide), wide));
  const x = new Float64Array(PLACES);
  const light = new Float64Array(PLACES * 3);
  const clipped = new Float64Array(PLACES);
  for (let place = 0; place < PLACES; place += 1) {
    const at = Math.min(count - 1, Math.floor(((place + 0.5) * count) / PLACES));
    x[place] = box.left + (at + 0.5) * step;
    for (let c = 0; c < 3; c += 1) light[place * 3 + c] = smoothed[c]![at]! / lines;
    clipped[place] = smoothed[3]![at]! / lines;
  }
  return { y: (box.top + box.bottom) / 2, x, light, clipped };
};

/** Light of white paper as a cubic of the place, for each channel; in logarithms, so never negative. */
export type White = (x: number, y: number, c: number) => number;

const terms = (x: number, y: number): number[] => [
  1,
  x,
  y,
  x * x,
  x * y,
  y * y,
  x * x * x,
  x * x * y,
  x * y * y,
  y * y * y,
];

/** Fits the white of the gaps above and below the bands; outliers (dirt, glare) lose weight. */
const fitWhite = (rows: readonly SampledRow[], halfX: number, halfY: number): White => {
  const fits = [0, 1, 2].map((c) => {
    let kept = 0.3;
    let found: Float64Array | undefined;
    for (let round = 0; round < 4; round += 1) {
      const normal = new Float64Array(100);
      const right = new Float64Array(10);
      for (const row of rows)
        for (let place = 2; place < PLACES - 2; place += 4) {
          const value = Math.log(Math.max(1e-4, row.light[place * 3 + c]!));
          const t = terms(row.x[place]! / halfX, row.y / halfY);
          const off =
            found === undefined ? 0 : value - t.reduce((s, one, k) => s + one * found![k]!, 0);
          // Darkness spread from the bands is likelier than light: it loses more weight.
          const weight = 1 / (1 + (off / (off < 0 ? kept / 2 : kept)) ** 2);
          for (let i = 0; i < 10; i += 1) {
            for (let k = 0; k < 10; k += 1) normal[i * 10 + k]! += weight * t[i]! * t[k]!;
            right[i]! += weight * t[i]! * value;
          }
        }
      for (let i = 0; i < 10; i += 1) normal[i * 11]! += 1e-6 * normal[0]!;
      found = solve(normal, right) ?? found;
      kept = Math.max(0.03, kept / 3);
    }
    return found ?? new Float64Array(10);
  });
  return (xMm, yMm, c) => {
    const [x, y] = [xMm / halfX, yMm / halfY];
    const f = fits[c]!;
    // The terms in their order, by powers of x: asked for at every place of every row.
    const constant = f[0]! + y * (f[2]! + y * (f[5]! + y * f[9]!));
    const first = f[1]! + y * (f[4]! + y * f[8]!);
    const second = f[3]! + y * f[7]!;
    return Math.exp(constant + x * (first + x * (second + x * f[6]!)));
  };
};

export interface SampledBand {
  readonly box: PlaneBox;
  /** Reflectance against white, RGB. */
  readonly rows: readonly SampledRow[];
}

export interface SampledStrip {
  readonly bands: readonly SampledBand[];
  readonly phase: SampledBand;
  /** Light of white paper in the middle of the strip, linear, green. */
  readonly whiteLight: number;
}

/** A strip found in a photo. */
export interface StripInPhoto {
  readonly layout: StripLayout;
  readonly plane: StripPlane;
  readonly corners: PhotoCorners;
  readonly h: Homography;
  /** In the middle of the strip. */
  readonly pxPerMm: number;
  /** The whole photo, reduced. */
  readonly small: Grey;
}

/** @param ribMm nominal lens pitch. */
export const sampleStrip = (
  pixels: PhotoPixels,
  spec: StripSpec,
  { layout, plane, h, pxPerMm }: StripInPhoto,
  ribMm: number,
  onShare: (share: number) => void,
): SampledStrip => {
  const boxes = [...layout.bands, layout.phase].map((box) => planeBox(spec, plane, box));
  const take = (box: PlaneBox) => sampleRow(pixels, h, box, pxPerMm, ribMm);
  const gaps = boxes.flatMap((box, i) => {
    const under = { ...box, top: box.bottom + 0.35, bottom: box.bottom + 0.65 };
    return i === 0 ? [{ ...box, top: box.top - 0.65, bottom: box.top - 0.35 }, under] : [under];
  });
  const white = fitWhite(gaps.map(take), boxes[0]!.right, plane.heightMm / 2);
  const sampled = boxes.map((box, i): SampledBand => {
    const high = (box.bottom - box.top - 2 * EDGE_MM) / ROWS;
    const rows = Array.from({ length: ROWS }, (_, row) => {
      const top = box.top + EDGE_MM + row * high;
      const raw = take({ ...box, top, bottom: top + high });
      const light = raw.light.map((value, at) => {
        const place = (at / 3) | 0;
        return value / white(raw.x[place]!, raw.y, at % 3);
      });
      return { ...raw, light };
    });
    onShare((i + 1) / boxes.length);
    return { box, rows };
  });
  return {
    bands: sampled.slice(0, -1),
    phase: sampled.at(-1)!,
    whiteLight: white(0, 0, 1),
  };
};
