/** The light that a printed strip gives back, for sums over any stretch of a row. */
import { stripLayout } from '../../src/core/pitch/strip-layout.ts';
import { stripSource } from '../../src/core/pitch/strip-rows.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';

/** sRGB, IEC 61966-2-1. */
const decode = (encoded: number) =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;

/** Reflectance of the paper and of black on it. */
export const WHITE = 0.82;
const BLACK = 0.03;

/** The strip's rows as light heaped up from the left, each distinct row once. */
interface Heaps {
  readonly dots: number;
  /** Which heap a row of the strip uses. */
  readonly heapOf: Int32Array;
  readonly heaps: readonly Float32Array[];
  /** Colours differ in it. */
  readonly coloured: readonly boolean[];
}

const heapsOf = (spec: StripSpec, inkGamma: number): Heaps => {
  // Always as with upright ribs; lying strips are turned as a whole by the camera.
  const upright = { ...spec, ribs: 'upright' as const };
  const { acrossDots, alongDots } = stripLayout(upright);
  const rows = stripSource(upright);
  const light = Float64Array.from(
    { length: 256 },
    (_, code) => BLACK + (WHITE - BLACK) * decode(code / 255) ** inkGamma,
  );
  const heapOf = new Int32Array(alongDots);
  const heaps: Float32Array[] = [];
  const coloured: boolean[] = [];
  let before: Uint8Array | undefined;
  for (let along = 0; along < alongDots; along += 1) {
    const row = rows(along, 1);
    if (before === undefined || Buffer.compare(before, row) !== 0) {
      const colour = row.some((value, i) => value !== row[i - (i % 3)]);
      const channels = colour ? 3 : 1;
      const heap = new Float32Array((acrossDots + 1) * channels);
      for (let c = 0; c < channels; c += 1) {
        let sum = 0;
        for (let dot = 0; dot < acrossDots; dot += 1) {
          sum += light[row[dot * 3 + c]!]!;
          heap[(dot + 1) * channels + c] = sum;
        }
      }
      heaps.push(heap);
      coloured.push(colour);
    }
    heapOf[along] = heaps.length - 1;
    before = row;
  }
  return { dots: acrossDots, heapOf, heaps, coloured };
};

const kept = new Map<string, Heaps>();
export const heapsKept = (spec: StripSpec, inkGamma: number): Heaps => {
  const key = JSON.stringify([spec, inkGamma]);
  let found = kept.get(key);
  if (found === undefined) kept.set(key, (found = heapsOf(spec, inkGamma)));
  return found;
};
