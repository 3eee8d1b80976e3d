/** Small 8-bit pictures of frames, for the tilt proof and for thumbnails. */
import { code8OfLinear } from '../colour/srgb.ts';
import type { ReducedFrame, SourceImage } from './reduce.ts';
import { resampleLinear } from './reduce.ts';
import { axisMap, evenEdges } from './resample.ts';

let encodeTable: Uint8Array | undefined;

/**
 * Row-major RGBA, 8 bit, sRGB-encoded, opaque. Each side longer than `longestPx` is averaged down to it by itself:
 * lenticules across keep their number as long as they fit.
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
      : evenly(sourceOf(frame), columns, rows, 0).pixels;
  const pixels = new Uint8Array(columns * rows * 4).fill(255);
  for (let from = 0, to = 0; from < source.length; from += 3, to += 4) {
    pixels[to] = encode[source[from]!]!;
    pixels[to + 1] = encode[source[from + 1]!]!;
    pixels[to + 2] = encode[source[from + 2]!]!;
  }
  return { columns, rows, pixels };
};

const sourceOf = ({ columns, rows, pixels }: ReducedFrame): SourceImage => ({
  widthPx: columns,
  heightPx: rows,
  channels: 3,
  encoding: 'light16',
  data: pixels,
});

/** The whole picture averaged to columns × rows samples. */
const evenly = (image: SourceImage, columns: number, rows: number, exposureStops: number) =>
  resampleLinear(
    image,
    axisMap(evenEdges(columns, image.widthPx), image.widthPx),
    axisMap(evenEdges(rows, image.heightPx), image.heightPx),
    exposureStops,
  );

/** The whole picture in its shape, its longer side at most `longestPx`. */
export const thumbnailOf = (
  image: SourceImage,
  longestPx: number,
  exposureStops: number,
): ReducedFrame => {
  const scale = Math.min(1, longestPx / Math.max(image.widthPx, image.heightPx));
  const columns = Math.max(1, Math.round(image.widthPx * scale));
  const rows = Math.max(1, Math.round(image.heightPx * scale));
  return evenly(image, columns, rows, exposureStops);
};
