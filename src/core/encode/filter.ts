/** PNG row filters (PNG 3rd edition, 9.2) for samples of 8 bits. PDF takes the same rows with /Predictor 15. */
import { kernels, layRooms, roomBytes } from '../numeric/kernels.ts';
import type { Channels, WovenBand } from './row-writer.ts';

/** Filter types and their numbers in the file. */
export const rowFilters = { none: 0, sub: 1, up: 2, paeth: 4 } as const;
export type RowFilter = keyof typeof rowFilters;

/**
 * Filters a band of rows.
 * @param rows row-major, 8 bit, whole rows of `rowBytes`.
 * @param rowBytes bytes in a row, a multiple of the channels.
 * @param above the row before the band, `rowBytes` long. Null where there is none or it is not at hand: `sub`,
 *   which needs no row above, then filters the first row.
 * @returns each row’s filter number and filtered bytes: length rows × (rowBytes + 1).
 * @throws RangeError when the lengths do not fit each other.
 */
export const filterBand = (
  rows: Uint8Array,
  rowBytes: number,
  above: Uint8Array | null,
  filter: RowFilter,
  channels: Channels = 3,
): Uint8Array<ArrayBuffer> => {
  const band = { rows, rowBytes, above, channels };
  checkBand(band);
  return filtered(band, rowFilters[filter], 1);
};

type Rows = Pick<WovenBand, 'rows' | 'rowBytes' | 'above' | 'channels'>;

const filtered = (band: Rows, kind: number, numbered: 0 | 1): Uint8Array<ArrayBuffer> => {
  const { rows, rowBytes } = band;
  const length = (rows.length / rowBytes) * (rowBytes + numbered);
  const [room, out] = layRooms(rowBytes + rows.length, length);
  filterInto(band, kind, numbered, room, out);
  return roomBytes(out, length).slice();
};

/**
 * Filters a band from one room of the kernels' memory into another.
 * @param kind a number of `rowFilters`.
 * @param numbered 1: each row's number stands before its bytes.
 * @param room address of rowBytes + rows.length bytes, for the rows and the one above.
 * @param out address of the filtered rows.
 */
export const filterInto = (
  { rows, rowBytes, above, channels = 3 }: Rows,
  kind: number,
  numbered: 0 | 1,
  room: number,
  out: number,
): void => {
  const from = room + rowBytes;
  if (above !== null) roomBytes(room, rowBytes).set(above);
  roomBytes(from, rows.length).set(rows);
  const count = rows.length / rowBytes;
  const hasAbove = above === null ? 0 : 1;
  kernels().filterRows(from, rowBytes, channels, count, hasAbove, kind, numbered, out);
};

/**
 * The differences of `sub` without filter numbers: TIFF 6.0, section 14, predictor 2.
 * @param rows row-major, 8 bit, whole rows of `rowBytes`.
 * @returns as many bytes as `rows` has.
 */
export const differenceRows = (
  rows: Uint8Array,
  rowBytes: number,
  channels: Channels = 3,
): Uint8Array<ArrayBuffer> => {
  const band = { rows, rowBytes, above: null, channels };
  checkBand(band);
  return filtered(band, rowFilters.sub, 0);
};

const checkBand = ({ rows, rowBytes, above, channels = 3 }: Rows) => {
  if (!(Number.isSafeInteger(rowBytes) && rowBytes > 0 && rowBytes % channels === 0))
    throw new RangeError(
      `rowBytes: expected a multiple of ${channels} above 0, received ${rowBytes}`,
    );
  if (rows.length % rowBytes !== 0)
    throw new RangeError(
      `rows: expected whole rows of ${rowBytes} bytes, received ${rows.length} bytes`,
    );
  if (above !== null && above.length !== rowBytes)
    throw new RangeError(`above: expected ${rowBytes} bytes, received ${above.length}`);
};
