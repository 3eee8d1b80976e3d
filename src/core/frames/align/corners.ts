/**
 * Corners of a grey picture, where it changes in every direction: maxima of the smaller eigenvalue of the structure
 * tensor (Shi & Tomasi, Good features to track, CVPR 1994).
 */
import type { Plane } from '../parallax/plane.ts';

export interface Corner {
  /** To a part of a pixel, from the plane's corner. */
  readonly x: number;
  readonly y: number;
  readonly strength: number;
}

/** Weights 1 4 6 4 1 along rows and columns. */
const smoothed = (width: number, height: number, data: Float32Array): Float32Array => {
  const rows = new Float32Array(data.length);
  const out = new Float32Array(data.length);
  for (let y = 0; y < height; y += 1)
    for (let at = y * width + 2; at < (y + 1) * width - 2; at += 1)
      rows[at] =
        (data[at - 2]! + data[at + 2]! + 4 * (data[at - 1]! + data[at + 1]!) + 6 * data[at]!) / 16;
  for (let at = 2 * width; at < (height - 2) * width; at += 1)
    out[at] =
      (rows[at - 2 * width]! +
        rows[at + 2 * width]! +
        4 * (rows[at - width]! + rows[at + width]!) +
        6 * rows[at]!) /
      16;
  return out;
};

const strengthOf = ({ width, height, data }: Plane): Float32Array => {
  const size = width * height;
  const [xx, xy, yy] = [new Float32Array(size), new Float32Array(size), new Float32Array(size)];
  for (let y = 1; y < height - 1; y += 1)
    for (let at = y * width + 1; at < (y + 1) * width - 1; at += 1) {
      const dx = data[at + 1]! - data[at - 1]!;
      const dy = data[at + width]! - data[at - width]!;
      xx[at] = dx * dx;
      xy[at] = dx * dy;
      yy[at] = dy * dy;
    }
  const [sxx, sxy, syy] = [xx, xy, yy].map((part) => smoothed(width, height, part)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  return sxx.map((value, at) => {
    const [half, other] = [(value + syy[at]!) / 2, (value - syy[at]!) / 2];
    return half - Math.hypot(other, sxy[at]!);
  });
};

/** Where a parabola through three has its top, −½ … ½ from the middle. */
const topOf = (before: number, middle: number, next: number): number => {
  const bend = before - 2 * middle + next;
  return bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - next) / (2 * bend))) : 0;
};

/** Places at a time, so that corners lie all over the picture. */
const CELL_PX = 32;

/** @param wanted about so many, spread evenly. @param margin pixels at each edge without corners, at least 3 */
export const cornersOf = (plane: Plane, wanted: number, margin: number): Corner[] => {
  const { width, height } = plane;
  const strength = strengthOf(plane);
  const across = Math.ceil(width / CELL_PX);
  const cells = new Map<number, Corner[]>();
  for (let y = margin; y < height - margin; y += 1)
    for (let x = margin; x < width - margin; x += 1) {
      const at = y * width + x;
      const here = strength[at]!;
      if (here <= 1e-7) continue;
      const around = [-width - 1, -width, 1 - width, -1, 1, width - 1, width, width + 1];
      if (around.some((by) => strength[at + by]! >= here)) continue;
      const cell = Math.floor(y / CELL_PX) * across + Math.floor(x / CELL_PX);
      const corner = {
        x: x + 0.5 + topOf(strength[at - 1]!, here, strength[at + 1]!),
        y: y + 0.5 + topOf(strength[at - width]!, here, strength[at + width]!),
        strength: here,
      };
      const others = cells.get(cell);
      if (others === undefined) cells.set(cell, [corner]);
      else others.push(corner);
    }
  const each = Math.max(1, Math.ceil(wanted / Math.max(1, cells.size)));
  return [...cells.values()].flatMap((some) =>
    some.sort((a, b) => b.strength - a.strength).slice(0, each),
  );
};
