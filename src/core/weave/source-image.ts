/** Decoded pictures, what they are reduced to, and how their numbers become linear light. */
import type { Gains } from '../colour/picture-light.ts';
import { LINEAR_MAX, linearOfCode16, linearOfCode8 } from '../colour/srgb.ts';

/** A decoded picture: row-major, interleaved, opaque; a fourth channel is ignored. */
export interface SourceImage {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: 3 | 4;
  /**
   * 8-bit sRGB codes, 16-bit sRGB codes, float scene-linear Rec. 709 light with white at 1, or the studio’s linear
   * light, 0 … 65535.
   */
  readonly encoding: 'srgb8' | 'srgb16' | 'linear' | 'light16';
  readonly data: Uint8Array | Uint8ClampedArray | Uint16Array | Float32Array;
}

/** Row-major RGB, length columns × rows × 3, linear light 0 … 65535. */
export interface ReducedFrame {
  readonly columns: number;
  readonly rows: number;
  readonly pixels: Uint16Array<ArrayBuffer>;
}

/** Edges of the samples as shares of an outline, 0 … 1, rising. */
export interface SampleEdges {
  readonly columns: Float64Array;
  readonly rows: Float64Array;
}

/** How bright a picture is taken: for `linear` sources light × 2^stops, for all × gains; then clipped to white. */
export interface Exposed {
  readonly exposureStops?: number;
  /** Left out: 1, 1, 1. */
  readonly gains?: Gains;
}

let table8: Float32Array | undefined;
let table16: Float32Array | undefined;

/** Length 256; one table for all, not to be changed. */
export const lightOfCode8 = (): Float32Array => (table8 ??= linearOfCode8());

type Reader = (value: number) => number;

const scaledTable = (table: Float32Array, gain: number): Float32Array =>
  gain === 1 ? table : table.map((light) => Math.min(LINEAR_MAX, light * gain));

const readerFor = (encoding: SourceImage['encoding'], stops: number, gain: number): Reader => {
  switch (encoding) {
    case 'srgb8': {
      const table = scaledTable(lightOfCode8(), gain);
      return (value) => table[value]!;
    }
    case 'srgb16': {
      const table = scaledTable((table16 ??= linearOfCode16()), gain);
      return (value) => table[value]!;
    }
    case 'light16':
      return gain === 1 ? (value) => value : (value) => Math.min(LINEAR_MAX, value * gain);
    case 'linear': {
      const scale = LINEAR_MAX * 2 ** stops * gain;
      // NaN and negative light are black: `> 0` is false for both.
      return (value) => (value > 0 ? Math.min(LINEAR_MAX, value * scale) : 0);
    }
  }
};

/** For red, green and blue: the linear light, 0 … 65535, of a number of the picture. */
export const lightReaders = (
  { encoding }: Pick<SourceImage, 'encoding'>,
  { exposureStops = 0, gains = [1, 1, 1] }: Exposed,
): readonly [red: Reader, green: Reader, blue: Reader] => [
  readerFor(encoding, exposureStops, gains[0]),
  readerFor(encoding, exposureStops, gains[1]),
  readerFor(encoding, exposureStops, gains[2]),
];
