/**
 * Reduces a frame to what the lens can show: one sample for each lenticule across the ribs, the frame’s own rows
 * along them, averaged by area in linear light.
 */
import { LINEAR_MAX } from '../colour/srgb.ts';
import { kernels, layRooms, roomBytes } from '../numeric/kernels.ts';
import { zoomOf } from '../numeric/similarity.ts';
import { MM_PER_INCH } from '../units/units.ts';
import { lenticulesOver } from './column-map.ts';
import { levelArea } from './level-area.ts';
import type { Exposed, ReducedFrame, SampleEdges, SourceImage } from './source-image.ts';
import { lightOfCode8, lightReaders } from './source-image.ts';
import type { PictureArea } from './picture-area.ts';
import { isLevel } from './picture-area.ts';
import type { AxisMap } from './resample.ts';
import { axisMap, evenEdges } from './resample.ts';
import type { SheetSpec } from './sheet-spec.ts';
import { dotsAcross, dotsAlong, seenAtMm } from './sheet-spec.ts';
import { sampleTurned } from './turned.ts';

export type { ReducedFrame, SourceImage } from './source-image.ts';

export interface ReduceOptions extends Exposed {
  /** Samples along the ribs, equal for all frames of a sheet. Left out: the frame’s own. */
  readonly alongSamples?: number;
  /** What lies beside the picture; left out: white paper. */
  readonly ground?: 'white' | 'black';
}

/** Samples along the ribs that keep all of a frame, but no more than the sheet can print. */
export const ownSamplesAlong = (sheet: SheetSpec, area: PictureArea): number =>
  Math.max(
    1,
    Math.min(
      dotsAlong(sheet),
      Math.round(
        (sheet.ribs === 'upright' ? area.height : area.width) *
          (area.toFrame === undefined ? 1 : zoomOf(area.toFrame)),
      ),
    ),
  );

export const reduceFrame = (
  source: SourceImage,
  sheet: SheetSpec,
  area: PictureArea,
  options: ReduceOptions = {},
): ReducedFrame => {
  const steps = reduceInSteps(source, sheet, area, options);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};

/** The same, yielding now and then. Each sample is taken from the source itself, however the frame was placed. */
export function* reduceInSteps(
  source: SourceImage,
  sheet: SheetSpec,
  area: PictureArea,
  options: ReduceOptions = {},
): Generator<undefined, ReducedFrame> {
  const along = options.alongSamples ?? ownSamplesAlong(sheet, area);
  const upright = sheet.ribs === 'upright';
  const [across, down] = [lenticuleEdges(sheet), evenEdges(along, 1)];
  const [columns, rows] = upright ? [across, down] : [down, across];
  return yield* sampleArea(source, area, { columns, rows }, options);
}

/** Averages what lies in an outline over samples. Yields now and then. */
export function* sampleArea(
  source: SourceImage,
  laid: PictureArea,
  edges: SampleEdges,
  options: Omit<ReduceOptions, 'alongSamples'>,
): Generator<undefined, ReducedFrame> {
  if (!isLevel(laid)) return yield* sampleTurned(source, laid, edges, options);
  const area = levelArea(laid);
  const { mirror } = area;
  const columnAxis = axisMap(
    edges.columns.map((share) => area.left + share * area.width),
    source.widthPx,
    mirror && { before: mirror.left, after: mirror.right },
  );
  const rowAxis = axisMap(
    edges.rows.map((share) => area.top + share * area.height),
    source.heightPx,
    mirror && { before: mirror.top, after: mirror.bottom },
  );
  if (options.ground === 'black') for (const axis of [columnAxis, rowAxis]) axis.paper.fill(0);
  return resampleLinear(source, columnAxis, rowAxis, options);
}

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
  exposed: Exposed = {},
): ReducedFrame => {
  const { averageRow, addRow, roundRow } = kernels();
  const columns = columnAxis.samples;
  const rows = rowAxis.samples;
  const samples = columns * 3;
  const pixels = new Uint16Array(rows * samples);
  const rooms = layReducing(source, columnAxis);
  const { buffer } = kernels().memory;
  const fillLine = lineFiller(source, rooms, exposed);
  // Neighbouring output rows share at most one source row, so it is enough to keep the last two.
  const kept = rooms.kept.map((at) => ({ row: -1, at }));
  let older = 0;
  const reducedRow = (row: number): number => {
    const found = kept.find((entry) => entry.row === row);
    if (found !== undefined) return found.at;
    const entry = kept[older] as { row: number; at: number };
    older = 1 - older;
    fillLine(row);
    const { line, start, entries, weight, paper } = rooms;
    averageRow(line, start, entries, weight, paper, columns, entry.at);
    entry.row = row;
    return entry.at;
  };
  const sum = new Float32Array(buffer, rooms.sum, samples);
  const rounded = new Uint16Array(buffer, rooms.rounded, samples);
  for (let y = 0; y < rows; y += 1) {
    sum.fill(rowAxis.paper[y]! * LINEAR_MAX);
    for (let e = rowAxis.start[y]!; e < rowAxis.start[y + 1]!; e += 1)
      addRow(reducedRow(rowAxis.source[e]!), rowAxis.weight[e]!, samples, rooms.sum);
    roundRow(rooms.sum, samples, rooms.rounded);
    pixels.set(rounded, y * samples);
  }
  return { columns, rows, pixels };
};

/** Lays out one row of each step, and the columns that a row is averaged over. */
const layReducing = (source: SourceImage, axis: AxisMap) => {
  const samples = axis.samples * 3;
  const [codes, table, line, start, entries, weight, paper, first, second, sum, rounded] = layRooms(
    source.widthPx * source.channels,
    4 * 256,
    source.widthPx * 3 * 4,
    axis.start.byteLength,
    axis.source.byteLength,
    axis.weight.byteLength,
    axis.paper.byteLength,
    samples * 4,
    samples * 4,
    samples * 4,
    samples * 2,
  );
  const { buffer } = kernels().memory;
  new Uint32Array(buffer, start, axis.start.length).set(axis.start);
  new Uint32Array(buffer, entries, axis.source.length).set(axis.source);
  new Float32Array(buffer, weight, axis.weight.length).set(axis.weight);
  new Float32Array(buffer, paper, axis.paper.length).set(axis.paper);
  return { codes, table, line, start, entries, weight, paper, kept: [first, second], sum, rounded };
};

/** Reads one source row as RGB linear light, 0 … 65535, into the room `line`. */
const lineFiller = (
  source: SourceImage,
  rooms: { readonly codes: number; readonly table: number; readonly line: number },
  exposed: Exposed,
): ((row: number) => void) => {
  const { widthPx, channels, data, encoding } = source;
  const { buffer } = kernels().memory;
  const line = new Float32Array(buffer, rooms.line, widthPx * 3);
  const stride = widthPx * channels;
  if (encoding === 'srgb8' && exposed.gains === undefined) {
    const { lightRow } = kernels();
    new Float32Array(buffer, rooms.table, 256).set(lightOfCode8());
    const room = roomBytes(rooms.codes, stride);
    return (row) => {
      room.set(data.subarray(row * stride, (row + 1) * stride));
      lightRow(rooms.codes, channels, rooms.table, widthPx, rooms.line);
    };
  }
  const [red, green, blue] = lightReaders(source, exposed);
  return (row) => {
    for (let to = 0, from = row * stride; to < line.length; to += 3, from += channels) {
      line[to] = red(data[from]!);
      line[to + 1] = green(data[from + 1]!);
      line[to + 2] = blue(data[from + 2]!);
    }
  };
};
