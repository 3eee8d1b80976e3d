/**
 * Sheets of the three demo prints that this studio wove, from which it tells the size of a file and the time of a
 * weave before there are any of one's own. Measured in the built studio, in Chromium on a computer of two slow cores
 * with other work on them: each demo's own frames, 720 × 720 dpi, blended columns, at the demo's size and at half of
 * it; the file as it lay on the disk, and the seconds from the press of the button to the whole file, which for the
 * first of each size contain the preparing of frames.
 */
import type { SheetFileType } from './file-types.ts';

export interface MeasuredSheet {
  readonly of: string;
  readonly fileType: SheetFileType;
  readonly dots: number;
  readonly bytes: number;
  readonly seconds: number;
}

const sheet = (
  of: string,
  fileType: SheetFileType,
  [dots, bytes, seconds]: readonly [number, number, number],
): MeasuredSheet => ({ of, fileType, dots, bytes, seconds });

export const measuredSheets: readonly MeasuredSheet[] = [
  sheet('The old glasshouse, half the size', 'png', [10_368_000, 10_190_598, 6.8]),
  sheet('The old glasshouse, half the size', 'tiff', [10_368_000, 15_771_696, 8.3]),
  sheet('The old glasshouse, half the size', 'pdf', [10_368_000, 10_193_747, 3.7]),
  sheet('The old glasshouse', 'png', [41_472_000, 32_347_894, 13.4]),
  sheet('The old glasshouse', 'tiff', [41_472_000, 61_413_728, 11.3]),
  sheet('The old glasshouse', 'pdf', [41_472_000, 32_350_863, 7.1]),
  sheet('The dive, half the size', 'png', [10_368_000, 3_213_023, 3.5]),
  sheet('The dive, half the size', 'tiff', [10_368_000, 7_094_944, 2.1]),
  sheet('The dive, half the size', 'pdf', [10_368_000, 3_216_160, 1.3]),
  sheet('The dive', 'png', [41_472_000, 9_174_554, 5.2]),
  sheet('The dive', 'tiff', [41_472_000, 24_480_448, 6.8]),
  sheet('The dive', 'pdf', [41_472_000, 9_177_511, 3.2]),
  sheet('Fog coming in, half the size', 'png', [10_368_000, 5_465_835, 4.9]),
  sheet('Fog coming in, half the size', 'tiff', [10_368_000, 11_272_064, 3.0]),
  sheet('Fog coming in, half the size', 'pdf', [10_368_000, 5_468_977, 1.3]),
  sheet('Fog coming in', 'png', [41_472_000, 16_048_987, 6.5]),
  sheet('Fog coming in', 'tiff', [41_472_000, 41_198_736, 11.1]),
  sheet('Fog coming in', 'pdf', [41_472_000, 16_051_951, 6.6]),
];
