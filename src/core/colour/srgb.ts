/**
 * The sRGB transfer function (IEC 61966-2-1) and the tables that replace it in the weave.
 *
 * Threads pass linear light to each other as 16-bit whole numbers, 0 … 65535. The darkest step of an 8-bit sRGB code
 * is 20 of those, so every code survives the round trip.
 */

/** Full scale of 16-bit linear light. */
export const LINEAR_MAX = 65535;

/** Encoded value in [0, 1] to linear light in [0, 1]. */
export const srgbToLinear = (encoded: number): number =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;

/** Linear light in [0, 1] to an encoded value in [0, 1]. */
export const linearToSrgb = (linear: number): number =>
  linear <= 0.0031308 ? linear * 12.92 : 1.055 * linear ** (1 / 2.4) - 0.055;

/** Linear light, 0 … 65535 as float, for each 8-bit sRGB code. Length 256. */
export const linearOfCode8 = (): Float32Array =>
  Float32Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255) * LINEAR_MAX);

/** Linear light, 0 … 65535 as float, for each 16-bit sRGB code. Length 65536. */
export const linearOfCode16 = (): Float32Array =>
  Float32Array.from({ length: 65536 }, (_, code) => srgbToLinear(code / 65535) * LINEAR_MAX);

/** The nearest 8-bit sRGB code for each 16-bit linear value. Length 65536. */
export const code8OfLinear = (): Uint8Array =>
  Uint8Array.from({ length: LINEAR_MAX + 1 }, (_, value) =>
    Math.round(linearToSrgb(value / LINEAR_MAX) * 255),
  );
