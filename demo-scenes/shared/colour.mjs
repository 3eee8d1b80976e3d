/** Colours. All shading is done in linear light; hex codes are sRGB and are converted once, when a scene is built. */

const toLinear = (code) => {
  const c = code / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
};

/** '#rrggbb' → [r, g, b] in linear light, 0…1. */
export const hex = (text) =>
  [1, 3, 5].map((at) => toLinear(Number.parseInt(text.slice(at, at + 2), 16)));

export const mix = (a, b, t) => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

export const scaled = (c, k) => [c[0] * k, c[1] * k, c[2] * k];

export const clamp01 = (t) => (t < 0 ? 0 : t > 1 ? 1 : t);

export const smooth = (low, high, t) => {
  const k = clamp01((t - low) / (high - low));
  return k * k * (3 - 2 * k);
};

/** Colour along a list of [position, colour] stops. */
export function ramp(stops, t) {
  if (t <= stops[0][0]) return stops[0][1];
  for (let i = 1; i < stops.length; i++) {
    const [end, colour] = stops[i];
    const [start, before] = stops[i - 1];
    if (t <= end) return mix(before, colour, (t - start) / (end - start));
  }
  return stops[stops.length - 1][1];
}

/** Table from linear light (0…1 in 4096 steps) to sRGB codes, exact to less than one code. */
const CODES = new Float32Array(4097);
for (let i = 0; i <= 4096; i++) {
  const c = i / 4096;
  CODES[i] = 255 * (c <= 0.0031308 ? c * 12.92 : 1.055 * c ** (1 / 2.4) - 0.055);
}

/** Linear light to an sRGB code, 0…255, not yet rounded. Below 1/64 the curve is too steep for the table. */
export function toCode(c) {
  if (c <= 0) return 0;
  if (c >= 1) return 255;
  if (c < 0.015625) return 255 * (c <= 0.0031308 ? c * 12.92 : 1.055 * c ** (1 / 2.4) - 0.055);
  const at = c * 4096;
  const i = at | 0;
  return CODES[i] + (CODES[i + 1] - CODES[i]) * (at - i);
}
