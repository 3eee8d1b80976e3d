/** What a camera of the rig sees of the key plane, as a graphics card is told it. */
import type { Frustum } from '../plan/rig.ts';

export interface PixelRect {
  readonly left: number;
  /** From the upper edge of the frame. */
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface FramePx {
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * The part of a window that falls on some pixels of its frame. `shift`, in pixels to the right and down, moves the
 * samples within their pixels.
 */
export const partOfWindow = (
  { left, right, bottom, top }: Frustum,
  frame: FramePx,
  rect: PixelRect,
  shift: readonly [right: number, down: number] = [0, 0],
): Frustum => {
  const across = (right - left) / frame.widthPx;
  const down = (top - bottom) / frame.heightPx;
  const fromLeft = left + (rect.left + shift[0]) * across;
  const fromTop = top - (rect.top + shift[1]) * down;
  return {
    left: fromLeft,
    right: fromLeft + rect.widthPx * across,
    top: fromTop,
    bottom: fromTop - rect.heightPx * down,
  };
};

/**
 * The projection of a window on the near plane, column-major, clip space −w … w: the matrix of glFrustum
 * (OpenGL 2.1 specification, 2.11.2).
 */
export const projectionOf = (
  { left, right, bottom, top }: Frustum,
  near: number,
  far: number,
): number[] => [
  (2 * near) / (right - left),
  0,
  0,
  0,
  0,
  (2 * near) / (top - bottom),
  0,
  0,
  (right + left) / (right - left),
  (top + bottom) / (top - bottom),
  -(far + near) / (far - near),
  -1,
  0,
  0,
  (-2 * far * near) / (far - near),
  0,
];

/** The bits of `index` in reverse, as a share of 1: the sequence of van der Corput (1935). */
const mirroredBits = (index: number): number => {
  let [share, half] = [0, 0.5];
  for (let rest = index; rest > 0; rest >>= 1, half /= 2) share += (rest & 1) * half;
  return share;
};

/**
 * Places of the samples within a pixel, −0.5 … 0.5: as even across and down as their number allows, and on average in
 * its middle, so that nothing moves by them. The point set of Hammersley (1960).
 */
export const sampleShifts = (count: number): (readonly [right: number, down: number])[] => {
  const strewn = Array.from(
    { length: count },
    (_, index) => [(index + 0.5) / count - 0.5, mirroredBits(index)] as const,
  );
  const mean = strewn.reduce((sum, [, down]) => sum + down, 0) / count;
  return strewn.map(([right, down]) => [right, down - mean] as const);
};
