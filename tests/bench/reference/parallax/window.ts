/** A square window of a picture: cut out at whole or fractional pixels, centred, correlated. */
import type { Plane } from '../../../../src/core/frames/parallax/plane.ts';

export interface Window {
  /** Pixels from the middle to the edge. */
  readonly radius: number;
  readonly size: number;
  /** Row-major, size × size, sum 1; they fall off from the middle. */
  readonly weights: Float64Array;
}

/** Gaussian weights whose standard deviation is half the radius. */
export const windowOf = (radius: number): Window => {
  const size = 2 * radius + 1;
  const weights = new Float64Array(size * size);
  let sum = 0;
  for (let y = -radius; y <= radius; y += 1)
    for (let x = -radius; x <= radius; x += 1) {
      const weight = Math.exp((-2 * (x * x + y * y)) / (radius * radius));
      weights[(y + radius) * size + x + radius] = weight;
      sum += weight;
    }
  for (let i = 0; i < weights.length; i += 1) weights[i] = weights[i]! / sum;
  return { radius, size, weights };
};

/** `value` within 0 … most. */
export const clamp = (value: number, most: number): number =>
  value < 0 ? 0 : value > most ? most : value;

/** The window around a whole pixel; beyond the picture its edge is repeated. */
export const cut = (plane: Plane, x: number, y: number, window: Window, into: Float64Array) => {
  const { width, height, data } = plane;
  const { radius, size } = window;
  for (let row = 0; row < size; row += 1) {
    const line = clamp(y + row - radius, height - 1) * width;
    for (let column = 0; column < size; column += 1)
      into[row * size + column] = data[line + clamp(x + column - radius, width - 1)]!;
  }
};

/** Weights of four neighbours at fraction t between the middle two: Catmull–Rom (Keys 1981, a = −1/2). */
export const cubic = (t: number): readonly [number, number, number, number] => [
  t * (-0.5 + t * (1 - 0.5 * t)),
  1 + t * t * (-2.5 + 1.5 * t),
  t * (0.5 + t * (2 - 1.5 * t)),
  t * t * (-0.5 + 0.5 * t),
];

/** The window around any point. @param scratch at least (size + 3) × size. */
export const cutBetween = (
  plane: Plane,
  x: number,
  y: number,
  { radius, size }: Window,
  scratch: Float64Array,
  into: Float64Array,
) => {
  const { width, height, data } = plane;
  const left = Math.floor(x);
  const top = Math.floor(y);
  const [a, b, c, d] = cubic(x - left);
  const inside = left - radius - 1 >= 0 && left + radius + 2 < width;
  for (let row = 0; row < size + 3; row += 1) {
    const line = clamp(top + row - radius - 1, height - 1) * width;
    for (let column = 0; column < size; column += 1) {
      const at = left + column - radius;
      scratch[row * size + column] = inside
        ? a * data[line + at - 1]! +
          b * data[line + at]! +
          c * data[line + at + 1]! +
          d * data[line + at + 2]!
        : a * data[line + clamp(at - 1, width - 1)]! +
          b * data[line + clamp(at, width - 1)]! +
          c * data[line + clamp(at + 1, width - 1)]! +
          d * data[line + clamp(at + 2, width - 1)]!;
    }
  }
  const [e, f, g, h] = cubic(y - top);
  for (let i = 0; i < size * size; i += 1)
    into[i] =
      e * scratch[i]! +
      f * scratch[i + size]! +
      g * scratch[i + 2 * size]! +
      h * scratch[i + 3 * size]!;
};

/** Subtracts the weighted mean in place; returns the weighted variance. */
export const centre = (values: Float64Array, { weights }: Window): number => {
  let mean = 0;
  for (let i = 0; i < values.length; i += 1) mean += weights[i]! * values[i]!;
  let variance = 0;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i]! - mean;
    values[i] = value;
    variance += weights[i]! * value * value;
  }
  return variance;
};

/** Weighted covariance of two centred windows. */
export const covariance = (a: Float64Array, b: Float64Array, { weights }: Window): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += weights[i]! * a[i]! * b[i]!;
  return sum;
};
