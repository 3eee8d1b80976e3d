/**
 * PNG row filters (PNG 3rd edition, 9.2) for 8-bit RGB. PDF takes the same rows with /Predictor 15.
 *
 * A woven sheet has one direction in which neighbours come from the same frame: along the ribs.
 * Across them each dot comes from another frame. So the filter follows the ribs.
 */
import type { Ribs } from '../weave/sheet-spec.ts';

/** Filter types and their numbers in the file. */
export const rowFilters = { none: 0, sub: 1, up: 2 } as const;
export type RowFilter = keyof typeof rowFilters;

/** Bytes from one pixel to the next, and so from a byte to the one `sub` takes away from it. */
const PIXEL = 3;

/** The filter that looks along the ribs: at the row above where they stand, to the left where they lie. */
export const filterFor = (ribs: Ribs): RowFilter => (ribs === 'upright' ? 'up' : 'sub');

/**
 * Filters a band of rows.
 * @param rows row-major RGB, 8 bit, a whole number of rows of `rowBytes` each.
 * @param rowBytes bytes in a row, a multiple of 3.
 * @param above the row before the band, `rowBytes` long, or null where there is none or it is not at
 *   hand: the band's first row is then filtered with `sub`, which needs no row above.
 * @returns for each row its filter number and its filtered bytes: length rows × (rowBytes + 1).
 * @throws RangeError when the lengths do not fit one another.
 */
export const filterBand = (
  rows: Uint8Array,
  rowBytes: number,
  above: Uint8Array | null,
  filter: RowFilter,
): Uint8Array<ArrayBuffer> => {
  checkBand(rows, rowBytes, above);
  const count = rows.length / rowBytes;
  const out = new Uint8Array(count * (rowBytes + 1));
  for (let row = 0; row < count; row += 1) {
    const here = rows.subarray(row * rowBytes, (row + 1) * rowBytes);
    const before = row === 0 ? above : rows.subarray((row - 1) * rowBytes, row * rowBytes);
    const kind = filter === 'up' && before === null ? 'sub' : filter;
    const start = row * (rowBytes + 1);
    out[start] = rowFilters[kind];
    const filtered = out.subarray(start + 1, start + 1 + rowBytes);
    if (kind === 'up') filterUp(here, before!, filtered);
    else if (kind === 'sub') filterSub(here, filtered);
    else filtered.set(here);
  }
  return out;
};

/** 9.2, type 2: each byte less the one above it. */
const filterUp = (here: Uint8Array, above: Uint8Array, out: Uint8Array) => {
  for (let i = 0; i < here.length; i += 1) out[i] = here[i]! - above[i]!;
};

/** 9.2, type 1: each byte less the same sample of the pixel to the left. */
const filterSub = (here: Uint8Array, out: Uint8Array) => {
  for (let i = 0; i < PIXEL && i < here.length; i += 1) out[i] = here[i]!;
  for (let i = PIXEL; i < here.length; i += 1) out[i] = here[i]! - here[i - PIXEL]!;
};

/**
 * The same differences without filter numbers: TIFF 6.0, section 14, predictor 2.
 * @param rows row-major RGB, 8 bit, a whole number of rows of `rowBytes` each.
 * @returns as many bytes as came.
 */
export const differenceRows = (rows: Uint8Array, rowBytes: number): Uint8Array<ArrayBuffer> => {
  checkBand(rows, rowBytes, null);
  const out = new Uint8Array(rows.length);
  for (let at = 0; at < rows.length; at += rowBytes)
    filterSub(rows.subarray(at, at + rowBytes), out.subarray(at, at + rowBytes));
  return out;
};

const checkBand = (rows: Uint8Array, rowBytes: number, above: Uint8Array | null) => {
  if (!(Number.isSafeInteger(rowBytes) && rowBytes > 0 && rowBytes % PIXEL === 0))
    throw new RangeError(`rowBytes: expected a multiple of 3 above 0, received ${rowBytes}`);
  if (rows.length % rowBytes !== 0)
    throw new RangeError(
      `rows: expected whole rows of ${rowBytes} bytes, received ${rows.length} bytes`,
    );
  if (above !== null && above.length !== rowBytes)
    throw new RangeError(`above: expected ${rowBytes} bytes, received ${above.length}`);
};
