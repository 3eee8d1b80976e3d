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

const codeOf = (value: number): number => Math.round(linearToSrgb(value / LINEAR_MAX) * 255);

/** Powers take long, and codes rise with the light: so only the first light of each code is sought. */
const makeCode8 = (): Uint8Array => {
  const table = new Uint8Array(LINEAR_MAX + 1);
  let from = 0;
  for (let code = 1; code <= 255; code += 1) {
    let first = Math.round(srgbToLinear((code - 0.5) / 255) * LINEAR_MAX) - 1;
    while (codeOf(first) < code) first += 1;
    table.fill(code - 1, from, first);
    from = first;
  }
  return table.fill(255, from);
};

let code8: Uint8Array | undefined;

/** The nearest 8-bit sRGB code for each 16-bit linear value. Length 65536; one table for all, not to be changed. */
export const code8OfLinear = (): Uint8Array => (code8 ??= makeCode8());
