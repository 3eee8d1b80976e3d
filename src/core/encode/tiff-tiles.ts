/**
 * How a TIFF is divided: into strips of whole rows, or into tiles (TIFF 6.0, section 15).
 *
 * Under upright ribs a row resembles the one above it, and TIFF has no way to difference the two: the
 * repeat must be found by deflate, which looks back 32 kB. A row longer than that is out of its own sight. In a tile the
 * row above is 3 kB back.
 *
 * Measured on the demo scenes under upright ribs, strips against tiles, as many times as large as the same sheet as PNG:
 * 141,732 dots across 21.6 against 2.9 (lighthouse) and 12.4 against about 3 (glasshouse); 17,291 dots across 5.9 against
 * 2.4 (kingfisher) and 3.7 against 2.7 (glasshouse). With lying ribs both are as large as the PNG. Tiles of 512 and 2048
 * dots are within 4 %; without the predictor they are up to 10 % smaller where frames are smooth and up to 20 % larger
 * where they are not.
 */
import { joinBytes } from './bytes.ts';
import { combineAdler32 } from './checksum.ts';
import { differenceRows } from './filter.ts';
import type { BandBytes, Channels } from './row-writer.ts';
import type { Segment } from './deflate/segment.ts';
import { deflateSegment, zlibStream } from './deflate/segment.ts';
import { WINDOW } from './deflate/tables.ts';

/** A multiple of 16, as section 15 asks; a row of a tile is a tenth of the window. */
const TILE_WIDTH = 1024;
/** Each tile's first row has none above it: the longer the better, while a band of tiles stays at some megabytes. */
const LONG = { length: 64, upToDots: 32_768 };
const SHORT_LENGTH = 32;

export interface Tiles {
  readonly width: number;
  readonly length: number;
  /** Tiles side by side; the last may reach past the sheet. */
  readonly across: number;
  readonly channels: Channels;
}

/**
 * @param width dots in a row of the sheet.
 * @returns undefined where strips do: every reader knows them.
 */
export const tilesOf = (width: number, channels: Channels = 3): Tiles | undefined => {
  if (width * channels <= WINDOW) return undefined;
  const length = width <= LONG.upToDots ? LONG.length : SHORT_LENGTH;
  return { width: TILE_WIDTH, length, across: Math.ceil(width / TILE_WIDTH), channels };
};

/** Rows differenced (section 14), deflated, and closed as a zlib stream of their own. */
export const closedStream = (rows: Uint8Array, rowBytes: number, channels: Channels): Segment => {
  const segment = deflateSegment(differenceRows(rows, rowBytes, channels), 'far');
  return { ...segment, bytes: zlibStream(segment) };
};

/**
 * A band as tiles, from left to right and from top to bottom.
 * @param rows row-major; a multiple of the tiles' length, or the sheet's last rows: what is missing is zero.
 */
export const tiledBand = (rows: Uint8Array, rowBytes: number, tiles: Tiles): BandBytes => {
  const count = rows.length / rowBytes;
  const parts: Uint8Array[] = [];
  let adler32 = 1;
  let rawLength = 0;
  for (let top = 0; top < count; top += tiles.length)
    for (let column = 0; column < tiles.across; column += 1) {
      const dots = cutTile(rows, rowBytes, tiles, { top, column });
      const stream = closedStream(dots, tiles.width * tiles.channels, tiles.channels);
      parts.push(stream.bytes);
      adler32 = combineAdler32(adler32, stream.adler32, stream.rawLength);
      rawLength += stream.rawLength;
    }
  const pieces = parts.map(({ length }) => length);
  return { bytes: joinBytes(parts), pieces, adler32, rawLength };
};

const cutTile = (
  rows: Uint8Array,
  rowBytes: number,
  { width, length, channels }: Tiles,
  { top, column }: { readonly top: number; readonly column: number },
): Uint8Array => {
  const tileBytes = width * channels;
  const dots = new Uint8Array(tileBytes * length);
  const left = column * tileBytes;
  const right = Math.min(rowBytes, left + tileBytes);
  const bottom = Math.min(rows.length / rowBytes, top + length);
  for (let row = top; row < bottom; row += 1)
    dots.set(rows.subarray(row * rowBytes + left, row * rowBytes + right), (row - top) * tileBytes);
  return dots;
};
