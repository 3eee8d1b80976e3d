/** What a PNG says about itself, chunk by chunk (PNG third edition, W3C 2025). */
import { crc32 } from '../../src/core/encode/checksum.ts';
import { ascii, u32be } from './bytes.ts';
import { damaged } from './image.ts';
import type { PixelSize } from './image.ts';

export interface PngHeader extends PixelSize {
  readonly bitDepth: number;
  /** 0 grey, 2 RGB, 3 palette, 4 grey with alpha, 6 RGB with alpha. */
  readonly colourType: number;
  /** Bodies of the ancillary chunks met before the pixels, by chunk name. */
  readonly chunks: ReadonlyMap<string, Uint8Array>;
}

const SIGNATURE_LENGTH = 8;

/** Size and depth only, from the first 33 bytes. */
export const pngSize = (
  head: Uint8Array,
  name: string,
): PixelSize & { bitDepth: number; colourType: number } => {
  if (head.length < 33 || ascii(head, 12, 4) !== 'IHDR')
    throw damaged(name, 'its header is cut off');
  return {
    widthPx: u32be(head, 16),
    heightPx: u32be(head, 20),
    bitDepth: head[24] ?? 0,
    colourType: head[25] ?? 0,
  };
};

/**
 * Most bytes that one byte of deflate stands for: a code of two bits for 258 of them, each time (RFC 1951,
 * 3.2.5). A few bytes that state a picture of gigabytes are found out before room is made for it.
 */
const DEFLATE_EXPANDS_TO = 1032;

const channelsOf: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/** Of the pixels unpacked and not interlaced, each row with its filter's byte. 0 for no known colour type. */
export const rawBytesOf = ({
  widthPx,
  heightPx,
  bitDepth,
  colourType,
}: Omit<PngHeader, 'chunks'>): number => {
  const channels = channelsOf[colourType];
  if (channels === undefined) return 0;
  return heightPx * (1 + Math.ceil((widthPx * channels * bitDepth) / 8));
};

/** Of all IDAT chunks of a file that readPngHeader has walked. */
export const packedBytesOf = (file: Uint8Array): number => {
  let bytes = 0;
  for (let at = SIGNATURE_LENGTH; at + 12 <= file.length; at += 12 + u32be(file, at))
    if (ascii(file, at + 4, 4) === 'IDAT') bytes += u32be(file, at);
  return bytes;
};

const checkFilling = (size: Omit<PngHeader, 'chunks'>, packedBytes: number, name: string): void => {
  const raw = rawBytesOf(size);
  if (raw === 0) throw damaged(name, `its header gives colour type ${size.colourType}`);
  if (raw > packedBytes * DEFLATE_EXPANDS_TO)
    throw damaged(
      name,
      `it is said to be ${size.widthPx} × ${size.heightPx} pixels, more than its ${packedBytes} bytes of them can hold`,
    );
};

/**
 * Walks every chunk of a whole file. Throws `damaged` when a chunk runs past the end, its checksum is
 * wrong or IEND never comes: browsers show the part of a broken file that they have, as if it were all.
 */
export const readPngHeader = (file: Uint8Array, name: string): PngHeader => {
  const size = pngSize(file, name);
  const chunks = new Map<string, Uint8Array>();
  let hasPixels = false;
  for (let at = SIGNATURE_LENGTH; ;) {
    const length = u32be(file, at);
    const type = ascii(file, at + 4, 4);
    if (at + 12 + length > file.length) throw damaged(name, 'the PNG breaks off before its end');
    // Chunks the picture cannot do without begin with a capital (5.4).
    if (
      /^[A-Z]/.test(type) &&
      crc32(file.subarray(at + 4, at + 8 + length)) !== u32be(file, at + 8 + length)
    )
      throw damaged(name, `the checksum of its ${type} part is wrong`);
    if (type === 'IEND') break;
    if (type === 'IDAT') hasPixels = true;
    else if (!hasPixels) chunks.set(type, file.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  if (!hasPixels) throw damaged(name, 'the PNG holds no pixels');
  checkFilling(size, packedBytesOf(file), name);
  return { ...size, chunks };
};

/** Name of the profile in an `iCCP` chunk: Latin-1 up to a zero byte. */
export const iccpName = (chunk: Uint8Array): string => {
  const end = chunk.indexOf(0);
  return ascii(chunk, 0, end < 0 ? 0 : Math.min(end, 79));
};
