/**
 * Reduces a frame to what the lens can show: one sample for each lenticule across the ribs, the frame’s own rows
 * along them, averaged by area in linear light.
 */
import { LINEAR_MAX, linearOfCode16, linearOfCode8 } from '../colour/srgb.ts';
import { MM_PER_INCH } from '../units/units.ts';
import { lenticulesOver } from './column-map.ts';
import type { PictureArea } from './picture-area.ts';
import type { AxisMap } from './resample.ts';
import { axisMap, evenEdges } from './resample.ts';
import type { SheetSpec } from './sheet-spec.ts';
import { dotsAcross, dotsAlong, seenAtMm } from './sheet-spec.ts';

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

export interface ReduceOptions {
  /** For `linear` sources: light × 2^stops, then clipped to white. */
  readonly exposureStops?: number;
  /** Samples along the ribs, equal for all frames of a sheet. Left out: the frame’s own. */
  readonly alongSamples?: number;
  /** What lies beside the picture; left out: white paper. */
  readonly ground?: 'white' | 'black';
}

/** Samples along the ribs that keep all of a frame, but no more than the sheet can print. */
export const ownSamplesAlong = (sheet: SheetSpec, area: PictureArea): number =>
  Math.max(
    1,
    Math.min(dotsAlong(sheet), Math.round(sheet.ribs === 'upright' ? area.height : area.width)),
  );

export const reduceFrame = (
  source: SourceImage,
  sheet: SheetSpec,
  area: PictureArea,
  options: ReduceOptions = {},
): ReducedFrame => {
  const along = options.alongSamples ?? ownSamplesAlong(sheet, area);
  const upright = sheet.ribs === 'upright';
  const [across, down] = [lenticuleEdges(sheet), evenEdges(along, 1)];
  const { mirror } = area;
  const columnAxis = axisMap(
    (upright ? across : down).map((share) => area.left + share * area.width),
    source.widthPx,
    mirror && { before: mirror.left, after: mirror.right },
  );
  const rowAxis = axisMap(
    (upright ? down : across).map((share) => area.top + share * area.height),
    source.heightPx,
    mirror && { before: mirror.top, after: mirror.bottom },
  );
  if (options.ground === 'black') for (const axis of [columnAxis, rowAxis]) axis.paper.fill(0);
  return resampleLinear(source, columnAxis, rowAxis, options.exposureStops ?? 0);
};

/**
 * Edges of the lenticules as shares of the print, clipped to it: 0 … 1, length count + 1. They lie on the lens, where
 * the eye sees each rib’s colour, and not on the print, whose dots are p_v / p further out.
 */
export const lenticuleEdges = (sheet: SheetSpec): Float64Array => {
  const { first, count } = lenticulesOver(sheet);
  const printMm = (dotsAcross(sheet) * MM_PER_INCH) / sheet.acrossDpi;
  return Float64Array.from({ length: count + 1 }, (_, i) => {
    const printedMm = (first + i - 0.5) * sheet.viewingPitchMm + sheet.offsetMm;
    const fromMiddleMm = seenAtMm(sheet, printedMm);
    return Math.min(1, Math.max(0, fromMiddleMm / printMm + 0.5));
  });
};

/** Averages a picture over the samples of two axes, in linear light. */
export const resampleLinear = (
  source: SourceImage,
  columnAxis: AxisMap,
  rowAxis: AxisMap,
  exposureStops: number,
): ReducedFrame => {
  const columns = columnAxis.samples;
  const rows = rowAxis.samples;
  const pixels = new Uint16Array(columns * rows * 3);
  const readRow = linearRowReader(source, exposureStops);
  // Neighbouring output rows share at most one source row, so it is enough to keep the last two.
  const kept = [0, 1].map(() => ({ row: -1, values: new Float32Array(columns * 3) }));
  let older = 0;
  const reducedRow = (row: number): Float32Array => {
    const found = kept.find((entry) => entry.row === row);
    if (found !== undefined) return found.values;
    const entry = kept[older] as { row: number; values: Float32Array };
    older = 1 - older;
    averageColumns(readRow(row), columnAxis, entry.values);
    entry.row = row;
    return entry.values;
  };
  const sum = new Float32Array(columns * 3);
  for (let y = 0; y < rows; y += 1) {
    sum.fill(rowAxis.paper[y]! * LINEAR_MAX);
    for (let e = rowAxis.start[y]!; e < rowAxis.start[y + 1]!; e += 1) {
      const values = reducedRow(rowAxis.source[e]!);
      const weight = rowAxis.weight[e]!;
      for (let i = 0; i < sum.length; i += 1) sum[i] = sum[i]! + values[i]! * weight;
    }
    const base = y * columns * 3;
    for (let i = 0; i < sum.length; i += 1) pixels[base + i] = Math.min(LINEAR_MAX, sum[i]! + 0.5);
  }
  return { columns, rows, pixels };
};

const averageColumns = (line: Float32Array, axis: AxisMap, into: Float32Array) => {
  const { start, source, weight, paper } = axis;
  for (let x = 0; x < axis.samples; x += 1) {
    let r = paper[x]! * LINEAR_MAX;
    let g = r;
    let b = r;
    for (let e = start[x]!; e < start[x + 1]!; e += 1) {
      const at = source[e]! * 3;
      const w = weight[e]!;
      r += line[at]! * w;
      g += line[at + 1]! * w;
      b += line[at + 2]! * w;
    }
    into[x * 3] = r;
    into[x * 3 + 1] = g;
    into[x * 3 + 2] = b;
  }
};

let table8: Float32Array | undefined;
let table16: Float32Array | undefined;

/** Reads one source row as RGB linear light, 0 … 65535; reuses its buffer. */
const linearRowReader = (source: SourceImage, exposureStops: number) => {
  const line = new Float32Array(source.widthPx * 3);
  const fill = lineFiller(source, exposureStops);
  const stride = source.widthPx * source.channels;
  return (row: number): Float32Array => {
    fill(line, row * stride);
    return line;
  };
};

/** Fills a line from `source.data`, starting at an index: one plain loop for each encoding. */
const lineFiller = (
  { channels, data, encoding }: SourceImage,
  exposureStops: number,
): ((line: Float32Array, from: number) => void) => {
  if (encoding === 'light16')
    return (line, from) => {
      for (let to = 0; to < line.length; to += 3, from += channels) {
        line[to] = data[from]!;
        line[to + 1] = data[from + 1]!;
        line[to + 2] = data[from + 2]!;
      }
    };
  if (encoding === 'linear') {
    const scale = LINEAR_MAX * 2 ** exposureStops;
    // NaN and negative light are black: `> 0` is false for both.
    const scaled = (value: number) => (value > 0 ? Math.min(LINEAR_MAX, value * scale) : 0);
    return (line, from) => {
      for (let to = 0; to < line.length; to += 3, from += channels) {
        line[to] = scaled(data[from]!);
        line[to + 1] = scaled(data[from + 1]!);
        line[to + 2] = scaled(data[from + 2]!);
      }
    };
  }
  const table =
    encoding === 'srgb8' ? (table8 ??= linearOfCode8()) : (table16 ??= linearOfCode16());
  return (line, from) => {
    for (let to = 0; to < line.length; to += 3, from += channels) {
      line[to] = table[data[from]!]!;
      line[to + 1] = table[data[from + 1]!]!;
      line[to + 2] = table[data[from + 2]!]!;
    }
  };
};
