/** What a PNG says about itself, chunk by chunk (PNG third edition, W3C 2025). */
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
 * Walks every chunk of a whole file. Throws `damaged` when a chunk runs past the end or IEND never
 * comes: browsers show the part of a broken-off file that they have, as if it were all.
 */
export const readPngHeader = (file: Uint8Array, name: string): PngHeader => {
  const size = pngSize(file, name);
  const chunks = new Map<string, Uint8Array>();
  let hasPixels = false;
  for (let at = SIGNATURE_LENGTH; ;) {
    const length = u32be(file, at);
    const type = ascii(file, at + 4, 4);
    if (at + 12 + length > file.length) throw damaged(name, 'the PNG breaks off before its end');
    if (type === 'IEND') break;
    if (type === 'IDAT') hasPixels = true;
    else if (!hasPixels) chunks.set(type, file.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  if (!hasPixels) throw damaged(name, 'the PNG holds no pixels');
  return { ...size, chunks };
};

/** Name of the profile in an `iCCP` chunk: Latin-1 up to a zero byte. */
export const iccpName = (chunk: Uint8Array): string => {
  const end = chunk.indexOf(0);
  return ascii(chunk, 0, end < 0 ? 0 : Math.min(end, 79));
};
