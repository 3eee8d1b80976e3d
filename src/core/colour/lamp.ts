/**
 * The tone curve of a print that is lit from behind. In daylight, light passes the ink twice, to the paper and back;
 * from a lamp it passes once. Ink that reflects R in daylight lets √R of a lamp’s light through. The same look
 * therefore needs R = light^2, or a smaller power where the paper itself holds light back: light^k, k the factor on
 * optical density.
 *
 * Warmth balances the lamp’s own colour: it multiplies the light of each channel by a gain, as if the white were that
 * of a black body some mired warmer or cooler than D65’s correlated temperature. Chromaticity of the black body: the
 * cubic spline of Kim et al., J. Korean Phys. Soc. 41(6), 865 (2002), its part from 4000 to 25000 K; to linear sRGB
 * by the matrix of IEC 61966-2-1. The largest gain is 1, since a printer can only take light away.
 */
import { LINEAR_MAX, linearToSrgb } from './srgb.ts';

export interface LampCurve {
  /** k, factor on optical density; 1 changes nothing. */
  readonly density: number;
  /** Steps of 40 mired; above 0 warmer, below 0 cooler. */
  readonly warmth: number;
}

export const MOST_DENSITY = 3;
export const MOST_WARMTH = 2;

/** Correlated colour temperature of D65, kelvin (CIE 15). */
const WHITE_K = 6504;
const STEP_MIRED = 40;

/** The white of a warmth, kelvin. */
export const whiteOf = (warmth: number): number => 1e6 / (1e6 / WHITE_K + warmth * STEP_MIRED);

/** CIE 1931 (x, y) of a black body. @param kelvin 4000 … 25000. @throws RangeError outside that range. */
export const blackBody = (kelvin: number): { readonly x: number; readonly y: number } => {
  if (!(kelvin >= 4000 && kelvin <= 25000))
    throw new RangeError(`kelvin: expected 4000 to 25000, received ${kelvin}`);
  const x = -3.0258469e9 / kelvin ** 3 + 2.1070379e6 / kelvin ** 2 + 222.6347 / kelvin + 0.24039;
  const y = 3.081758 * x ** 3 - 5.8733867 * x ** 2 + 3.75112997 * x - 0.37001483;
  return { x, y };
};

/** Linear sRGB of a chromaticity at luminance 1. */
const rgbOf = ({ x, y }: { readonly x: number; readonly y: number }): readonly number[] => {
  const [bigX, bigZ] = [x / y, (1 - x - y) / y];
  return [
    3.2406 * bigX - 1.5372 - 0.4986 * bigZ,
    -0.9689 * bigX + 1.8758 + 0.0415 * bigZ,
    0.0557 * bigX - 0.204 + 1.057 * bigZ,
  ];
};

/** Gains on the light of red, green and blue; the largest is 1. All are 1 at warmth 0. */
export const gainsOf = (warmth: number): readonly [number, number, number] => {
  if (warmth === 0) return [1, 1, 1];
  const plain = rgbOf(blackBody(WHITE_K));
  const gains = rgbOf(blackBody(whiteOf(warmth))).map((value, c) => value / plain[c]!);
  const most = Math.max(...gains);
  const [red, green, blue] = gains.map((gain) => gain / most) as [number, number, number];
  return [red, green, blue];
};

/** The light to print for a channel’s light of 0 … 1. */
export const lampLight = (light: number, density: number, gain: number): number =>
  gain * light ** density;

/** 8-bit sRGB code of each 16-bit linear value, for red, green and blue. Length 65536 each. */
export type ToneTables = readonly [Uint8Array, Uint8Array, Uint8Array];

export const lampTables = ({ density, warmth }: LampCurve): ToneTables => {
  const [red, green, blue] = gainsOf(warmth).map((gain) =>
    Uint8Array.from({ length: LINEAR_MAX + 1 }, (_, value) =>
      Math.round(255 * linearToSrgb(lampLight(value / LINEAR_MAX, density, gain))),
    ),
  ) as [Uint8Array, Uint8Array, Uint8Array];
  return [red, green, blue];
};
