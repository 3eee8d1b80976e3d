/** A picture as a PNG file, a band at a time, so that it can be stopped. */
import { pngWriter } from '../src/core/encode/png.ts';
import type { Checkpoint } from './answer.ts';

const BAND_ROWS = 128;

/** @param rgb row-major RGB, length columns × rows × 3, 8-bit sRGB codes */
export const pngOf = async (
  rgb: Uint8Array,
  columns: number,
  rows: number,
  checkpoint: Checkpoint,
  dpi = 300,
): Promise<Blob> => {
  const rowBytes = 3 * columns;
  const info = { width: columns, height: rows, horizontalDpi: dpi, verticalDpi: dpi };
  const png = pngWriter.open({ info, rowsInBand: BAND_ROWS });
  const pieces = [png.head()];
  for (let y = 0; y < rows; y += BAND_ROWS) {
    const band = pngWriter.wrapBand({
      rows: rgb.subarray(y * rowBytes, Math.min(rows, y + BAND_ROWS) * rowBytes),
      rowBytes,
      above: y === 0 ? null : rgb.subarray((y - 1) * rowBytes, y * rowBytes),
      ribs: 'upright',
    });
    png.took({ ...band, byteLength: band.bytes.length });
    pieces.push(band.bytes);
    await checkpoint();
  }
  pieces.push(png.tail().bytes);
  return new Blob(pieces, { type: 'image/png' });
};
