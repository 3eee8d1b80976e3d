/**
 * Deflates a sheet in bands, for every row writer. Several workers share the bands; each piece ends in a sync flush,
 * so that the pieces set end to end behind one header form one zlib stream (RFC 1950, RFC 1951).
 */
import { joinBytes } from '../bytes.ts';
import { kernels, roomBytes } from '../../numeric/kernels.ts';
import { filterInto, rowFilters } from '../filter.ts';
import type { Search } from './matcher.ts';
import { deflateLaid } from './matcher.ts';
import type { WovenBand } from '../row-writer.ts';
import { searchFor, chooseCompression } from '../compression.ts';
import type { DeflateRooms } from './rooms.ts';
import { layDeflate } from './rooms.ts';

/** One piece of a zlib stream; it ends at a byte boundary. */
export interface Segment {
  /** Raw deflate blocks (RFC 1951), none of them marked final. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Adler-32 of the bytes that went in. */
  readonly adler32: number;
  /** How many bytes went in. */
  readonly rawLength: number;
}

/** The header of a zlib stream: deflate, 32 K window, lowest level (RFC 1950, 2.2). 2 bytes. */
export const zlibHead = (): Uint8Array<ArrayBuffer> => Uint8Array.of(0x78, 0x01);

/**
 * The end of a zlib stream: an empty final block with fixed codes, then the Adler-32 of all bytes that went in,
 * highest byte first (RFC 1950, 2.2). 6 bytes.
 * @param adler that sum.
 */
export const zlibEnd = (adler: number): Uint8Array<ArrayBuffer> =>
  Uint8Array.of(0x03, 0x00, adler >>> 24, adler >>> 16, adler >>> 8, adler);

/** One piece as a whole zlib stream. */
export const zlibStream = ({ bytes, adler32: sum }: Segment): Uint8Array<ArrayBuffer> =>
  joinBytes([zlibHead(), bytes, zlibEnd(sum)]);

/** Deflates one piece. @param raw any bytes, or none. @param search left out: chosen by a trial on part of `raw`. */
export const deflateSegment = (raw: Uint8Array, search = searchFor(raw)): Segment => {
  const rooms = layDeflate(raw.length);
  roomBytes(rooms.first, raw.length).set(raw);
  return laidSegment(rooms, search);
};

const laidSegment = (rooms: DeflateRooms, search: Search): Segment => {
  const rawLength = rooms.end - rooms.first;
  return {
    adler32: kernels().adler32(rooms.first, rawLength, 1) >>> 0,
    bytes: deflateLaid(rooms, search),
    rawLength,
  };
};

/** Filters and deflates a band, for PNG and PDF. */
export const filteredSegment = (band: WovenBand): Segment => {
  const { rows, rowBytes } = band;
  const { filter, search } = chooseCompression(band);
  const length = (rows.length / rowBytes) * (rowBytes + 1);
  const rooms = layDeflate(length, rowBytes + rows.length);
  filterInto(band, rowFilters[filter], 1, rooms.beside, rooms.first);
  return laidSegment(rooms, search);
};
