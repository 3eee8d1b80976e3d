/** Small 8-bit pictures of frames, for the tilt proof and for thumbnails. */
import { LINEAR_MAX, code8OfLinear } from '../colour/srgb.ts';
import type { ReducedFrame, SourceImage } from './reduce.ts';
import { resampleLinear } from './reduce.ts';
import { axisMap, evenEdges } from './resample.ts';

/**
 * Row-major RGBA, 8 bit, sRGB-encoded, opaque. Each side longer than `longestPx` is averaged down to it by itself:
 * lenticules across keep their number as long as they fit.
 */
export const encodeProof = (
  frame: ReducedFrame,
  longestPx = Infinity,
): { columns: number; rows: number; pixels: Uint8Array<ArrayBuffer> } => {
  const encode = code8OfLinear();
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
    { exposureStops },
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

/** How much of each pixel of a picture was there before it was laid on white: 0 to the type's largest number. */
type Alpha = Uint8Array | Uint16Array;

/** Alpha averaged as `thumbnailOf` averages the picture. Length columns × rows, 0 … 1. */
const alphaOver = (
  alpha: Alpha,
  { widthPx, heightPx }: Pick<SourceImage, 'widthPx' | 'heightPx'>,
  columns: number,
  rows: number,
): Float32Array => {
  const across = axisMap(evenEdges(columns, widthPx), widthPx);
  const down = axisMap(evenEdges(rows, heightPx), heightPx);
  const whole = alpha instanceof Uint8Array ? 255 : 65535;
  const out = new Float32Array(columns * rows);
  for (let y = 0; y < rows; y += 1)
    for (let d = down.start[y]!; d < down.start[y + 1]!; d += 1)
      for (let x = 0; x < columns; x += 1) {
        let sum = 0;
        for (let a = across.start[x]!; a < across.start[x + 1]!; a += 1)
          sum += across.weight[a]! * alpha[down.source[d]! * widthPx + across.source[a]!]!;
        out[y * columns + x] = out[y * columns + x]! + (down.weight[d]! * sum) / whole;
      }
  return out;
};

/**
 * A thumbnail that lets its ground through where the picture does: what was laid on white is taken off it again,
 * light = (seen − (1 − alpha)) / alpha.
 * @param small the thumbnail on white
 * @param alpha of the whole picture
 */
export const encodeOffWhite = (
  small: ReducedFrame,
  image: Pick<SourceImage, 'widthPx' | 'heightPx'>,
  alpha: Alpha,
): ReturnType<typeof encodeProof> => {
  const { columns, rows } = small;
  const there = alphaOver(alpha, image, columns, rows);
  const light = small.pixels.map((seen, at) => {
    const share = there[Math.floor(at / 3)]!;
    const own = share > 0 ? (seen - LINEAR_MAX * (1 - share)) / share : 0;
    return Math.min(LINEAR_MAX, Math.max(0, Math.round(own)));
  });
  const picture = encodeProof({ columns, rows, pixels: light });
  there.forEach((share, at) => {
    picture.pixels[4 * at + 3] = Math.round(255 * share);
  });
  return picture;
};
