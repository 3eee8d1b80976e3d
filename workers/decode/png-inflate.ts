/**
 * Whether a PNG's pixels unpack to what its size says, and to what their checksum says: browsers leave out
 * rows that are missing and pass over a wrong Adler-32, and other readers unpack all before they look.
 */
import { ascii, u32be } from './bytes.ts';
import { damaged } from './image.ts';
import { rawBytesOf } from './png-header.ts';
import type { PngHeader } from './png-header.ts';

/** Beyond the size, as some writers leave it behind. */
const SPARE_BYTES = 2 ** 18;
/** Small enough that deflate, at most 1032 to 1, cannot burst memory before it is counted. */
const PIECE_BYTES = 2 ** 16;

function* piecesOf(file: Uint8Array<ArrayBuffer>): Generator<Uint8Array<ArrayBuffer>> {
  for (let at = 8; at + 12 <= file.length && ascii(file, at + 4, 4) !== 'IEND';) {
    const length = u32be(file, at);
    if (ascii(file, at + 4, 4) === 'IDAT')
      for (let from = 0; from < length; from += PIECE_BYTES)
        yield file.subarray(at + 8 + from, at + 8 + Math.min(length, from + PIECE_BYTES));
    at += 12 + length;
  }
}

/**
 * Unpacks and counts, keeping nothing.
 * @param file whose chunks readPngHeader has walked
 * @throws StudioError `damaged`
 */
export const checkPngInflates = async (
  file: Uint8Array<ArrayBuffer>,
  header: PngHeader,
  name: string,
): Promise<void> => {
  const raw = rawBytesOf(header);
  const pieces = piecesOf(file);
  const packed = new ReadableStream<Uint8Array<ArrayBuffer>>({
    pull: (controller) => {
      const next = pieces.next();
      if (next.done === true) controller.close();
      else controller.enqueue(next.value);
    },
  });
  const reader = packed.pipeThrough(new DecompressionStream('deflate')).getReader();
  let bytes = 0;
  // Interlaced pictures have more rows, each with its filter's byte: twice is more than enough.
  while (bytes <= 2 * raw + SPARE_BYTES) {
    const piece = await reader.read().catch(() => {
      throw damaged(name, 'its pixels do not unpack to what their checksum (Adler-32) says');
    });
    if (piece.done) {
      if (bytes < raw) throw damaged(name, 'its pixels unpack to less than its size says');
      return;
    }
    bytes += piece.value.length;
  }
  reader.cancel().catch(() => undefined);
  throw damaged(name, 'its pixels unpack to more than its size says');
};
