/** A small grey PNG in one piece: numbers to be kept, not a picture. W3C PNG, third edition (2025). */
import { joinBytes, uint32be } from './bytes.ts';
import { chunk, idat, iend, signature } from './png.ts';
import { deflateSegment, zlibEnd, zlibHead } from './deflate/segment.ts';

/** 11.2.1 IHDR: 8 bits a sample, colour type 0 (greyscale), no interlace. */
const ihdr = (width: number, height: number) =>
  chunk('IHDR', [...uint32be(width), ...uint32be(height), 8, 0, 0, 0, 0]);

/**
 * Says nothing about colours (no gamma, no profile): its samples are read as they stand.
 * @param grey row-major, width × height.
 * @throws RangeError when there are more or fewer of them.
 */
export const greyPng = (
  width: number,
  height: number,
  grey: Uint8Array,
): Uint8Array<ArrayBuffer> => {
  if (width * height !== grey.length || grey.length === 0)
    throw new RangeError(`grey: expected ${width} × ${height} samples, received ${grey.length}`);
  // 9.2, filter 0, none, before each row: most rows are all of one number.
  const rows = new Uint8Array(height * (width + 1));
  for (let y = 0; y < height; y += 1)
    rows.set(grey.subarray(y * width, (y + 1) * width), y * (width + 1) + 1);
  const segment = deflateSegment(rows);
  return joinBytes([
    signature,
    ihdr(width, height),
    idat(joinBytes([zlibHead(), segment.bytes, zlibEnd(segment.adler32)])),
    iend(),
  ]);
};
