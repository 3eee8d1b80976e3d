/** A PNG whose pixels unpack to far more than its size says: found out before memory is full of them. */
import { Unzlib } from 'fflate';
import { ascii, u32be } from './bytes.ts';
import { damaged } from './image.ts';
import { packedBytesOf, rawBytesOf } from './png-header.ts';
import type { PngHeader } from './png-header.ts';

/** Below this even the most that deflate can unfold to (1032 to 1) fits. */
const HARMLESS_BYTES = 2 ** 18;
const PIECE_BYTES = 2 ** 16;

/**
 * Unpacks and counts, keeping nothing: for readers that unpack all before they look at the size.
 * @throws StudioError `damaged`
 */
export const checkPngInflates = (file: Uint8Array, header: PngHeader, name: string): void => {
  if (packedBytesOf(file) <= HARMLESS_BYTES) return;
  // Interlaced pictures have more rows, each with its filter's byte: twice is more than enough.
  const most = 2 * rawBytesOf(header) + HARMLESS_BYTES;
  let bytes = 0;
  const inflate = new Unzlib((piece) => {
    bytes += piece.length;
    if (bytes > most) throw damaged(name, 'its pixels unpack to more than its size says');
  });
  for (let at = 8; at + 12 <= file.length && ascii(file, at + 4, 4) !== 'IEND';) {
    const length = u32be(file, at);
    if (ascii(file, at + 4, 4) === 'IDAT')
      for (let from = 0; from < length; from += PIECE_BYTES)
        inflate.push(file.subarray(at + 8 + from, at + 8 + Math.min(length, from + PIECE_BYTES)));
    at += 12 + length;
  }
};
