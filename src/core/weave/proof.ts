/** Small 8-bit pictures of frames: for the tilt proof and for thumbnails. */
import { code8OfLinear } from '../colour/srgb.ts';
import type { ReducedFrame, SourceImage } from './reduce.ts';
import { resampleLinear } from './reduce.ts';
import { axisMap, evenEdges } from './resample.ts';

let encodeTable: Uint8Array | undefined;

/**
 * Row-major RGBA, 8 bit, sRGB-encoded, opaque. Sides longer than `longestPx` are averaged down to it,
 * each on its own: lenticules across keep their number while they fit.
 */
export const encodeProof = (
  frame: ReducedFrame,
  longestPx = Infinity,
): { columns: number; rows: number; pixels: Uint8Array<ArrayBuffer> } => {
  const encode = (encodeTable ??= code8OfLinear());
  const columns = Math.min(frame.columns, longestPx);
  const rows = Math.min(frame.rows, longestPx);
  const source =
    columns === frame.columns && rows === frame.rows
      ? frame.pixels
      : averageDown(frame, columns, rows);
  const pixels = new Uint8Array(columns * rows * 4).fill(255);
  for (let from = 0, to = 0; from < source.length; from += 3, to += 4) {
    pixels[to] = encode[source[from]!]!;
    pixels[to + 1] = encode[source[from + 1]!]!;
    pixels[to + 2] = encode[source[from + 2]!]!;
  }
  return { columns, rows, pixels };
};

const averageDown = (frame: ReducedFrame, columns: number, rows: number): Uint16Array => {
  const columnAxis = axisMap(evenEdges(columns, frame.columns), frame.columns);
  const rowAxis = axisMap(evenEdges(rows, frame.rows), frame.rows);
  const source: SourceImage = {
    widthPx: frame.columns,
    heightPx: frame.rows,
    channels: 3,
    encoding: 'light16',
    data: frame.pixels,
  };
  return resampleLinear(source, columnAxis, rowAxis, 0).pixels;
};

/** The whole picture, shape kept, its longer side at most `longestPx`. */
export const thumbnailOf = (
  image: SourceImage,
  longestPx: number,
  exposureStops: number,
): ReducedFrame => {
  const scale = Math.min(1, longestPx / Math.max(image.widthPx, image.heightPx));
  const columns = Math.max(1, Math.round(image.widthPx * scale));
  const rows = Math.max(1, Math.round(image.heightPx * scale));
  return resampleLinear(
    image,
    axisMap(evenEdges(columns, image.widthPx), image.widthPx),
    axisMap(evenEdges(rows, image.heightPx), image.heightPx),
    exposureStops,
  );
};
