/** Transparent parts become paper: alpha is composited over white, or over black, in linear light. */
import { linearToSrgb, srgbToLinear } from '../../src/core/colour/srgb.ts';

/**
 * What transparent parts lie on. A title is decoded over both: what it is over anything else follows,
 * since black has none of the ground's light and white all of it.
 */
export type Ground = 'white' | 'black';

/** Makes 8-bit RGBA (unassociated alpha) opaque in place. Length width × height × 4, sRGB codes. */
export const flattenRgba8 = (data: Uint8ClampedArray, ground: Ground = 'white'): void => {
  const paper = ground === 'white' ? 1 : 0;
  const linear = Float32Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255));
  for (let i = 0; i < data.length; i += 4) {
    const alpha = (data[i + 3] ?? 0) / 255;
    if (alpha === 1) continue;
    for (let c = i; c < i + 3; c += 1) {
      // Uint8ClampedArray rounds to nearest.
      data[c] = 255 * linearToSrgb(alpha * (linear[data[c] ?? 0] ?? 0) + paper * (1 - alpha));
    }
    data[i + 3] = 255;
  }
};

/**
 * The alpha of 8-bit RGBA, length pixels; undefined where all is opaque. Asked before it is flattened.
 */
export const alphaOfRgba8 = (data: Uint8ClampedArray): Uint8Array | undefined => {
  // One 32-bit read a pixel finds the everyday case, no alpha at all, in about a millisecond.
  const words = new Uint32Array(data.buffer, data.byteOffset, data.length / 4);
  const opaque = new Uint32Array(new Uint8Array([0, 0, 0, 255]).buffer)[0] ?? 0;
  if (!words.some((word) => (word & opaque) >>> 0 !== opaque)) return undefined;
  return Uint8Array.from({ length: words.length }, (_, pixel) => data[4 * pixel + 3] ?? 0);
};

/**
 * RGB of 16-bit sRGB codes laid over the ground, in place, by a separate plane of alpha.
 * @param rgb length pixels × 3
 * @param alpha length pixels, 0 … 65535
 */
export const flattenRgb16 = (
  rgb: Uint16Array,
  alpha: Uint16Array,
  ground: Ground = 'white',
): void => {
  const paper = ground === 'white' ? 1 : 0;
  for (let pixel = 0; pixel < alpha.length; pixel += 1) {
    const a = (alpha[pixel] ?? 0) / 65535;
    if (a === 1) continue;
    for (let c = pixel * 3; c < pixel * 3 + 3; c += 1) {
      const light = a * srgbToLinear((rgb[c] ?? 0) / 65535) + paper * (1 - a);
      rgb[c] = Math.round(65535 * linearToSrgb(light));
    }
  }
};
