/** A small grey PNG that stores numbers, not a picture. W3C PNG, third edition (2025). */
import { joinBytes } from './bytes.ts';
import { idat, iend, ihdr, signature } from './png.ts';
import { deflateSegment, zlibStream } from './deflate/segment.ts';

/**
 * Has no gamma and no profile: readers take the samples as they are.
 * @param grey row-major, 8 bit, width × height.
 * @throws RangeError when its length is not width × height, or 0.
 */
export const greyPng = (
  width: number,
  height: number,
  grey: Uint8Array,
): Uint8Array<ArrayBuffer> => {
  if (width * height !== grey.length || grey.length === 0)
    throw new RangeError(`grey: expected ${width} × ${height} samples, received ${grey.length}`);
  // 9.2, filter 0 (none) before each row: in most rows all samples are equal.
  const rows = new Uint8Array(height * (width + 1));
  for (let y = 0; y < height; y += 1)
    rows.set(grey.subarray(y * width, (y + 1) * width), y * (width + 1) + 1);
  return joinBytes([
    signature,
    ihdr(width, height, 0),
    idat(zlibStream(deflateSegment(rows))),
    iend(),
  ]);
};
