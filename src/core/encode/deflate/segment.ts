/**
 * The deflate segmenter under every row writer. A sheet is deflated in bands by several workers;
 * each piece ends in a sync flush, so the pieces set end to end behind one header are one zlib
 * stream (RFC 1950, RFC 1951).
 */
import { adler32 } from '../checksum.ts';
import { filterBand } from '../filter.ts';
import { deflateRows } from './matcher.ts';
import type { WovenBand } from '../row-writer.ts';
import { searchFor, chooseCompression } from '../compression.ts';

/** One piece of a zlib stream, ended at a byte boundary but not the stream's end. */
export interface Segment {
  /** Raw deflate blocks (RFC 1951), none of them marked final. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Adler-32 of the bytes that went in. */
  readonly adler32: number;
  /** How many bytes went in. */
  readonly rawLength: number;
}

/** What opens a zlib stream: deflate, 32 K window, lowest level (RFC 1950, 2.2). 2 bytes. */
export const zlibHead = (): Uint8Array<ArrayBuffer> => Uint8Array.of(0x78, 0x01);

/**
 * What closes it: an empty final block with fixed codes, then the Adler-32 of everything that went
 * in, highest byte first (RFC 1950, 2.2). 6 bytes.
 */
export const zlibEnd = (adler: number): Uint8Array<ArrayBuffer> =>
  Uint8Array.of(0x03, 0x00, adler >>> 24, adler >>> 16, adler >>> 8, adler);

/**
 * Deflates one piece. `raw` may hold anything, or nothing. `search`: left out, a part of it is
 * tried out.
 */
export const deflateSegment = (raw: Uint8Array, search = searchFor(raw)): Segment => ({
  bytes: deflateRows(raw, search),
  adler32: adler32(raw),
  rawLength: raw.length,
});

/** Filters a band and deflates it: what PNG and PDF both take. */
export const filteredSegment = (band: WovenBand): Segment => {
  const { rows, rowBytes, above } = band;
  const { filter, search } = chooseCompression(band);
  const length = (rows.length / rowBytes) * (rowBytes + 1);
  if (filtered.length < length) filtered = new Uint8Array(length);
  return deflateSegment(filterBand(rows, rowBytes, above, filter, filtered), search);
};

/** Room for the filtered rows, kept from band to band: fresh memory costs as much as filtering. */
let filtered = new Uint8Array(0);
