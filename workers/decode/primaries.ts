/** From one set of RGB primaries to those of Rec. 709 and sRGB, in linear light. */

type Vec = readonly [number, number, number];
/** Row-major 3 × 3. */
export type Matrix3 = readonly [Vec, Vec, Vec];

/** CIE 1931 xy of red, green, blue and white. */
export interface Chromaticities {
  readonly red: readonly [x: number, y: number];
  readonly green: readonly [x: number, y: number];
  readonly blue: readonly [x: number, y: number];
  readonly white: readonly [x: number, y: number];
}

const D65 = [0.3127, 0.329] as const;

/** ITU-R BT.709 (and sRGB), BT.2020, and P3 with a D65 white (SMPTE EG 432-1). */
export const REC709: Chromaticities = {
  red: [0.64, 0.33],
  green: [0.3, 0.6],
  blue: [0.15, 0.06],
  white: D65,
};
export const REC2020: Chromaticities = {
  red: [0.708, 0.292],
  green: [0.17, 0.797],
  blue: [0.131, 0.046],
  white: D65,
};
export const P3_D65: Chromaticities = {
  red: [0.68, 0.32],
  green: [0.265, 0.69],
  blue: [0.15, 0.06],
  white: D65,
};

/** Bradford's cone response matrix, as in ICC.1:2022 annex E. */
const BRADFORD: Matrix3 = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
];

const apply = ([a, b, c]: Matrix3, [x, y, z]: Vec): Vec => [
  a[0] * x + a[1] * y + a[2] * z,
  b[0] * x + b[1] * y + b[2] * z,
  c[0] * x + c[1] * y + c[2] * z,
];

const transpose = ([a, b, c]: Matrix3): Matrix3 => [
  [a[0], b[0], c[0]],
  [a[1], b[1], c[1]],
  [a[2], b[2], c[2]],
];

const multiply = (left: Matrix3, right: Matrix3): Matrix3 => {
  const [x, y, z] = transpose(right);
  return transpose([apply(left, x), apply(left, y), apply(left, z)]);
};

const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

const invert = ([a, b, c]: Matrix3): Matrix3 => {
  const bc = cross(b, c);
  const determinant = a[0] * bc[0] + a[1] * bc[1] + a[2] * bc[2];
  const scaled = ([x, y, z]: Vec): Vec => [x / determinant, y / determinant, z / determinant];
  return transpose([scaled(bc), scaled(cross(c, a)), scaled(cross(a, b))]);
};

const diagonal = ([x, y, z]: Vec): Matrix3 => [
  [x, 0, 0],
  [0, y, 0],
  [0, 0, z],
];

/** XYZ of a chromaticity at Y = 1. */
const xyz = ([x, y]: readonly [number, number]): Vec => [x / y, 1, (1 - x - y) / y];

/** Linear RGB to XYZ with white at Y = 1 (SMPTE RP 177). */
const toXyz = ({ red, green, blue, white }: Chromaticities): Matrix3 => {
  const columns = transpose([xyz(red), xyz(green), xyz(blue)]);
  return multiply(columns, diagonal(apply(invert(columns), xyz(white))));
};

/** XYZ under one white to XYZ under another (Bradford). */
const adapt = (from: Vec, to: Vec): Matrix3 => {
  const [l, m, s] = apply(BRADFORD, from);
  const [l2, m2, s2] = apply(BRADFORD, to);
  return multiply(invert(BRADFORD), multiply(diagonal([l2 / l, m2 / m, s2 / s]), BRADFORD));
};

/** Linear RGB in `source` primaries to linear Rec. 709; white stays white (Bradford adaptation). */
export const toRec709 = (source: Chromaticities): Matrix3 =>
  multiply(
    invert(toXyz(REC709)),
    multiply(adapt(xyz(source.white), xyz(REC709.white)), toXyz(source)),
  );

/** True when every coordinate is within `tolerance` of Rec. 709: files round them to a few digits. */
export const isRec709 = (c: Chromaticities, tolerance = 0.002): boolean =>
  (['red', 'green', 'blue', 'white'] as const).every((key) =>
    [0, 1].every((i) => Math.abs((c[key][i] ?? 0) - (REC709[key][i] ?? 0)) <= tolerance),
  );

/** Multiplies interleaved linear RGB by `matrix` in place. Length pixels × channels, 3 or 4. */
export const multiplyPixels = (data: Float32Array, matrix: Matrix3, channels: 3 | 4 = 3): void => {
  const [[m0, m1, m2], [m3, m4, m5], [m6, m7, m8]] = matrix;
  for (let i = 0; i + 2 < data.length; i += channels) {
    const r = data[i] ?? 0;
    const g = data[i + 1] ?? 0;
    const b = data[i + 2] ?? 0;
    data[i] = m0 * r + m1 * g + m2 * b;
    data[i + 1] = m3 * r + m4 * g + m5 * b;
    data[i + 2] = m6 * r + m7 * g + m8 * b;
  }
};
