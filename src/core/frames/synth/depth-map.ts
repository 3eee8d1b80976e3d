/**
 * The meaning of the grey in a depth map, and the parallax that follows. Depths become parts of the parallax of
 * infinity, z / (D + z), z from the key plane and D the distance of the cameras from it (optics relation 6): motion
 * from view to view is proportional to parts.
 */

/** One value for each pixel, row-major, as in the file: no transfer curve is applied. */
export interface DepthMap {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly values: Uint8Array | Uint16Array | Float32Array;
  /** Value of white: 255, 65535, or 1 for floating point. */
  readonly white: number;
}

/**
 * How to read the values. All depths are in the unit of the cameras’ distance.
 * - `near-white`, `near-black`: grey is linear in depth between two ends, counted from the key plane,
 *   below 0 in front of it.
 * - `inverse`: white is nearest and grey is linear in 1 / Z, as published for multi-view test material
 *   (MPEG; for example the Balloons sequence): Z = 1 / (v (1 / Znear − 1 / Zfar) + 1 / Zfar), v = 0 … 1.
 *   Here too the ends are counted from the key plane: Z = D + z.
 * - `from-camera`: values are distances from the camera along its axis; `from-key`: from the key plane.
 *   `unit`: length of one of their units.
 */
export type DepthMeaning =
  | {
      readonly kind: 'near-white' | 'near-black' | 'inverse';
      readonly nearest: number;
      readonly farthest: number;
    }
  | { readonly kind: 'from-camera' | 'from-key'; readonly unit: number };

/** What is wrong with the ends, as a sentence; undefined when nothing is. */
export const faultOfMeaning = (meaning: DepthMeaning, distance: number): string | undefined => {
  if (!('nearest' in meaning)) return undefined;
  const { nearest, farthest } = meaning;
  if (!(nearest < farthest))
    return 'The nearest depth must be below the farthest: depths are counted from the key plane, below 0 in front of it.';
  if (!(distance + nearest > 0))
    return 'The nearest depth lies behind the cameras: it must be nearer to the key plane than they are.';
  return undefined;
};

/** Depth from the key plane for a value of the map. */
const zOf = (
  meaning: DepthMeaning,
  white: number,
  distance: number,
): ((value: number) => number) => {
  switch (meaning.kind) {
    case 'near-white':
      return (v) => meaning.farthest + (v / white) * (meaning.nearest - meaning.farthest);
    case 'near-black':
      return (v) => meaning.nearest + (v / white) * (meaning.farthest - meaning.nearest);
    case 'inverse': {
      const far = 1 / (distance + meaning.farthest);
      const near = 1 / (distance + meaning.nearest);
      return (v) => 1 / ((v / white) * (near - far) + far) - distance;
    }
    case 'from-camera':
      return (v) => v * meaning.unit - distance;
    case 'from-key':
      return (v) => v * meaning.unit;
  }
};

/** Depths nearer than this share of the cameras’ distance are not trusted: a hole in the map, or dirt. */
const NEAREST_SHARE = 0.02;

/**
 * Parts z / (D + z) for every pixel, row-major. Not-a-number, zero and places behind the cameras count as infinitely
 * far where values are distances (renderers leave an empty sky so), otherwise as the nearest trusted depth.
 */
export const partsOf = (
  { values, white }: DepthMap,
  meaning: DepthMeaning,
  distance: number,
): Float32Array => {
  const z = zOf(meaning, white, distance);
  const measured = meaning.kind === 'from-camera' || meaning.kind === 'from-key';
  const part = (value: number): number => {
    const away = distance + z(value);
    if (!(away > distance * NEAREST_SHARE)) return measured ? 1 : 1 - 1 / NEAREST_SHARE;
    return away === Infinity ? 1 : 1 - distance / away;
  };
  if (values instanceof Float32Array) return values.map(part);
  // There are few codes and many pixels.
  const table = Float32Array.from({ length: white + 1 }, (_, code) => part(code));
  return Float32Array.from(values, (code) => table[code]!);
};
