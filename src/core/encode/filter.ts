/** PNG row filters (PNG 3rd edition, 9.2) for 8-bit RGB. PDF takes the same rows with /Predictor 15. */
/** Filter types and their numbers in the file. */
export const rowFilters = { none: 0, sub: 1, up: 2, paeth: 4 } as const;
export type RowFilter = keyof typeof rowFilters;

/** Bytes per pixel; `sub` subtracts the byte this far to the left. */
const PIXEL = 3;

/**
 * Filters a band of rows.
 * @param rows row-major RGB, 8 bit, whole rows of `rowBytes`.
 * @param rowBytes bytes in a row, a multiple of 3.
 * @param above the row before the band, `rowBytes` long. Null where there is none or it is not at hand: `sub`,
 *   which needs no row above, then filters the first row.
 * @param room where to put the result; left out, a new array.
 * @returns each row’s filter number and filtered bytes: length rows × (rowBytes + 1).
 * @throws RangeError when the lengths do not fit each other.
 */
export const filterBand = (
  rows: Uint8Array,
  rowBytes: number,
  above: Uint8Array | null,
  filter: RowFilter,
  room?: Uint8Array<ArrayBuffer>,
): Uint8Array<ArrayBuffer> => {
  checkBand(rows, rowBytes, above);
  const count = rows.length / rowBytes;
  const length = count * (rowBytes + 1);
  const out = room?.subarray(0, length) ?? new Uint8Array(length);
  if (out.length < length)
    throw new RangeError(`room: expected at least ${length} bytes, received ${out.length}`);
  for (let row = 0; row < count; row += 1) {
    const here = rows.subarray(row * rowBytes, (row + 1) * rowBytes);
    const before = row === 0 ? above : rows.subarray((row - 1) * rowBytes, row * rowBytes);
    const kind = before === null && (filter === 'up' || filter === 'paeth') ? 'sub' : filter;
    const start = row * (rowBytes + 1);
    out[start] = rowFilters[kind];
    const filtered = out.subarray(start + 1, start + 1 + rowBytes);
    if (kind === 'up') filterUp(here, before!, filtered);
    else if (kind === 'paeth') filterPaeth(here, before!, filtered);
    else if (kind === 'sub') filterSub(here, filtered);
    else filtered.set(here);
  }
  return out;
};

const viewOf = ({ buffer, byteOffset, byteLength }: Uint8Array) =>
  new DataView(buffer, byteOffset, byteLength);

/** The highest bit of each of four bytes. */
const TOP_BITS = 0x80808080 | 0;
/**
 * Subtracts four bytes from four others, each modulo 256. A set top bit keeps one byte from borrowing from the next.
 */
const fourLess = (x: number, y: number): number =>
  (((x | TOP_BITS) - (y & ~TOP_BITS)) ^ ((x ^ ~y) & TOP_BITS)) | 0;

/** 9.2, type 2: each byte minus the one above it. */
const filterUp = (here: Uint8Array, above: Uint8Array, out: Uint8Array) => {
  const [from, less, to] = [viewOf(here), viewOf(above), viewOf(out)];
  let i = 0;
  for (; i < here.length - 3; i += 4)
    to.setInt32(i, fourLess(from.getInt32(i, true), less.getInt32(i, true)), true);
  for (; i < here.length; i += 1) out[i] = here[i]! - above[i]!;
};

/** 9.2, type 1: each byte minus the same sample of the pixel to the left. */
const filterSub = (here: Uint8Array, out: Uint8Array) => {
  const [from, to] = [viewOf(here), viewOf(out)];
  let i = 0;
  for (; i < PIXEL && i < here.length; i += 1) out[i] = here[i]!;
  for (; i < here.length - 3; i += 4)
    to.setInt32(i, fourLess(from.getInt32(i, true), from.getInt32(i - PIXEL, true)), true);
  for (; i < here.length; i += 1) out[i] = here[i]! - here[i - PIXEL]!;
};

/** 9.4 Paeth, type 4: each byte minus the predictor of `paeth`. */
const filterPaeth = (here: Uint8Array, above: Uint8Array, out: Uint8Array) => {
  for (let sample = 0; sample < PIXEL; sample += 1) {
    let left = 0;
    let aboveLeft = 0;
    for (let i = sample; i < here.length; i += PIXEL) {
      const up = above[i]!;
      const value = here[i]!;
      out[i] = value - paeth(left, up, aboveLeft);
      left = value;
      aboveLeft = up;
    }
  }
};

/**
 * 9.4: whichever of left, above and above left is nearest to left + above − above left; ties go to left, then to
 * above. Masks take the place of branches, which a processor cannot predict on grain.
 */
const paeth = (left: number, up: number, aboveLeft: number): number => {
  const toLeft = up - aboveLeft;
  const toUp = left - aboveLeft;
  const both = toLeft + toUp;
  const farLeft = (toLeft ^ (toLeft >> 31)) - (toLeft >> 31);
  const farUp = (toUp ^ (toUp >> 31)) - (toUp >> 31);
  const farBoth = (both ^ (both >> 31)) - (both >> 31);
  const notUp = (farBoth - farUp) >> 31;
  const rest = up ^ ((up ^ aboveLeft) & notUp);
  const notLeft = ((farUp - farLeft) | (farBoth - farLeft)) >> 31;
  return left ^ ((left ^ rest) & notLeft);
};

/**
 * The differences of `sub` without filter numbers: TIFF 6.0, section 14, predictor 2.
 * @param rows row-major RGB, 8 bit, whole rows of `rowBytes`.
 * @returns as many bytes as `rows` has.
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
