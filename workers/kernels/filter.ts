/** PNG row filters (PNG 3rd edition, 9.2) for samples of 8 bits; PDF and TIFF take the same differences. */

const SUB: u32 = 1;
const UP: u32 = 2;
const PAETH: u32 = 4;

/**
 * Filters rows, each by itself. Sixteen bytes are taken at once: up to 15 beyond the end of a row are read, and as many
 * written beyond the end of `out`.
 * @param rows u8[count × rowBytes]
 * @param rowBytes a multiple of `pixel`
 * @param pixel bytes of a pixel, 1 … 4; Sub and Paeth look this far to the left
 * @param hasAbove 1 where the row before the first lies right before it; 0: Sub takes the place of Up and Paeth there
 * @param kind 0 (None), 1 (Sub), 2 (Up) or 4 (Paeth), 9.2
 * @param numbered 1: the number of each row's filter stands before its bytes; 0: the bytes alone
 * @param out u8[count × (rowBytes + numbered)]; may not overlap `rows`
 */
export function filterRows(
  rows: usize,
  rowBytes: usize,
  pixel: usize,
  count: u32,
  hasAbove: u32,
  kind: u32,
  numbered: u32,
  out: usize,
): void {
  for (let row: u32 = 0; row < count; row += 1) {
    const here = row > 0 || hasAbove !== 0 || kind === 0 ? kind : SUB;
    if (numbered !== 0) {
      store<u8>(out, here);
      out += 1;
    }
    if (here === UP) filterUp(rows, rowBytes, out);
    else if (here === PAETH) filterPaeth(rows, rowBytes, pixel, out);
    else if (here === SUB) filterSub(rows, rowBytes, pixel, out);
    else memory.copy(out, rows, rowBytes);
    rows += rowBytes;
    out += rowBytes;
  }
}

/** 9.2, type 2: each byte minus the one above it. */
function filterUp(here: usize, rowBytes: usize, out: usize): void {
  const above = here - rowBytes;
  for (let i: usize = 0; i < rowBytes; i += 16)
    v128.store(out + i, i8x16.sub(v128.load(here + i), v128.load(above + i)));
}

/** 9.2, type 1: each byte minus the same sample of the pixel to the left, which the first pixel has none of. */
function filterSub(here: usize, rowBytes: usize, pixel: usize, out: usize): void {
  for (let i: usize = 0; i < rowBytes; i += 16)
    v128.store(out + i, i8x16.sub(v128.load(here + i), v128.load(here + i - pixel)));
  memory.copy(out, here, pixel);
}

/** 9.4 Paeth, type 4: each byte minus what is predicted from the left, above and above left. */
function filterPaeth(here: usize, rowBytes: usize, pixel: usize, out: usize): void {
  const above = here - rowBytes;
  for (let i: usize = 0; i < rowBytes; i += 16) {
    const predicted = i8x16.narrow_i16x8_u(
      eightPredicted(here + i, above + i, pixel),
      eightPredicted(here + i + 8, above + i + 8, pixel),
    );
    v128.store(out + i, i8x16.sub(v128.load(here + i), predicted));
  }
  // With nothing to the left, what is above is nearest.
  for (let i: usize = 0; i < pixel; i += 1)
    store<u8>(out + i, load<u8>(here + i) - load<u8>(above + i));
}

/**
 * 9.4: whichever of left, above and above left is nearest to left + above − above left; ties go to left, then to
 * above. For eight bytes, as eight whole numbers of 16 bits.
 */
function eightPredicted(here: usize, above: usize, pixel: usize): v128 {
  const left = v128.load8x8_u(here - pixel);
  const up = v128.load8x8_u(above);
  const aboveLeft = v128.load8x8_u(above - pixel);
  const toLeft = i16x8.sub(up, aboveLeft);
  const toUp = i16x8.sub(left, aboveLeft);
  const farLeft = i16x8.abs(toLeft);
  const farUp = i16x8.abs(toUp);
  const farBoth = i16x8.abs(i16x8.add(toLeft, toUp));
  const rest = v128.bitselect(up, aboveLeft, i16x8.le_s(farUp, farBoth));
  return v128.bitselect(left, rest, i16x8.le_s(farLeft, i16x8.min_s(farUp, farBoth)));
}
