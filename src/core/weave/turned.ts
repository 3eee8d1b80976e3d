/**
 * Averages a turned picture over samples, in linear light, once and from the picture itself. Each sample is a rectangle
 * that lies askew on the picture; it is read at points a pixel apart, between pixels bilinearly. For whole pixels that
 * is as soft as the average over the rectangle: variance (w² − 1) / 12 + 1 / 6 against w² / 12 + 1 / 12 for a width of
 * w pixels; a sample smaller than a pixel is read at one point, as a level picture’s is.
 */
import { LINEAR_MAX } from '../colour/srgb.ts';
import { zoomOf } from '../numeric/similarity.ts';
import type { Exposed, ReducedFrame, SampleEdges, SourceImage } from './source-image.ts';
import { lightReaders } from './source-image.ts';
import type { PictureArea, Sides } from './picture-area.ts';

interface TurnedOptions extends Exposed {
  readonly ground?: 'white' | 'black';
}

/** Adds the light at a point, in pixels from the picture’s corner, to a sum of three. */
type Tap = (x: number, y: number, mirrored: boolean, sum: Float64Array) => void;

const tapOf = (source: SourceImage, options: TurnedOptions): Tap => {
  const { widthPx, heightPx, channels, data } = source;
  const [red, green, blue] = lightReaders(source, options);
  const ground = options.ground === 'black' ? 0 : LINEAR_MAX;
  const add = (
    column: number,
    row: number,
    share: number,
    mirrored: boolean,
    sum: Float64Array,
  ) => {
    let [x, y] = [column, row];
    if (mirrored) {
      x = x < 0 ? -1 - x : x >= widthPx ? 2 * widthPx - 1 - x : x;
      y = y < 0 ? -1 - y : y >= heightPx ? 2 * heightPx - 1 - y : y;
    }
    if (x < 0 || y < 0 || x >= widthPx || y >= heightPx) {
      for (let c = 0; c < 3; c += 1) sum[c]! += share * ground;
      return;
    }
    const at = (y * widthPx + x) * channels;
    sum[0]! += share * red(data[at]!);
    sum[1]! += share * green(data[at + 1]!);
    sum[2]! += share * blue(data[at + 2]!);
  };
  return (x, y, mirrored, sum) => {
    const column = Math.floor(x - 0.5);
    const row = Math.floor(y - 0.5);
    const [right, down] = [x - 0.5 - column, y - 0.5 - row];
    add(column, row, (1 - right) * (1 - down), mirrored, sum);
    add(column + 1, row, right * (1 - down), mirrored, sum);
    add(column, row + 1, (1 - right) * down, mirrored, sum);
    add(column + 1, row + 1, right * down, mirrored, sum);
  };
};

/** Whether the picture is mirrored beyond its edge here: as for the outline’s nearest side. */
const mirroredAt = (sides: Sides | undefined, x: number, y: number): boolean => {
  if (sides === undefined) return false;
  const least = Math.min(x, y, 1 - x, 1 - y);
  if (least === x) return sides.left;
  if (least === y) return sides.top;
  return least === 1 - x ? sides.right : sides.bottom;
};

const ROWS_AT_ONCE = 8;

/** @param laid an outline with `toFrame` */
export function* sampleTurned(
  source: SourceImage,
  laid: PictureArea,
  edges: SampleEdges,
  options: TurnedOptions,
): Generator<undefined, ReducedFrame> {
  const { left, top, width, height, mirror, toFrame } = laid;
  if (toFrame === undefined) throw new RangeError('Only a frame that is placed can be turned.');
  const tap = tapOf(source, options);
  const zoom = zoomOf(toFrame);
  const columns = edges.columns.length - 1;
  const rows = edges.rows.length - 1;
  const pixels = new Uint16Array(columns * rows * 3);
  const sum = new Float64Array(3);
  for (let row = 0; row < rows; row += 1) {
    if (row > 0 && row % ROWS_AT_ONCE === 0) yield;
    const [t0, t1] = [edges.rows[row]!, edges.rows[row + 1]!];
    const down = Math.max(1, Math.round((t1 - t0) * height * zoom));
    for (let column = 0; column < columns; column += 1) {
      const [s0, s1] = [edges.columns[column]!, edges.columns[column + 1]!];
      const across = Math.max(1, Math.round((s1 - s0) * width * zoom));
      const mirrored = mirroredAt(mirror, (s0 + s1) / 2, (t0 + t1) / 2);
      sum.fill(0);
      for (let j = 0; j < down; j += 1) {
        const y = top + (t0 + ((j + 0.5) / down) * (t1 - t0)) * height;
        for (let i = 0; i < across; i += 1) {
          const x = left + (s0 + ((i + 0.5) / across) * (s1 - s0)) * width;
          const { a, b, x0, y0 } = toFrame;
          tap(a * x - b * y + x0, b * x + a * y + y0, mirrored, sum);
        }
      }
      const at = (row * columns + column) * 3;
      for (let c = 0; c < 3; c += 1)
        pixels[at + c] = Math.min(LINEAR_MAX, Math.round(sum[c]! / (across * down)));
    }
  }
  return { columns, rows, pixels };
}
