/** Sizes out of WebP (RFC 9649) and AVIF (ISO/IEC 23000-22 in an ISO base media file). */
import { hasText, ascii, u16le, u24le, u32be, u32le } from './bytes.ts';
import { exifOrientation } from './orient.ts';
import { checkSize, damaged } from './image.ts';
import type { PixelSize } from './image.ts';

export interface ContainerHeader extends PixelSize {
  readonly icc?: Uint8Array;
  /** More than one picture: the first is decoded. */
  readonly animated: boolean;
  /** EXIF orientation that the browser ignores; 1 where there is nothing to do. */
  readonly orientation: number;
}

/** A chunk of a RIFF file: its name and the position of its content. */
interface Chunk {
  readonly type: string;
  readonly from: number;
  readonly to: number;
}

/** @throws StudioError `damaged` where one reaches past the end that the file states */
const webpChunks = (file: Uint8Array, name: string): Chunk[] => {
  const end = u32le(file, 4) + 8;
  if (end > file.length) throw damaged(name, 'the WebP breaks off before its end');
  const chunks: Chunk[] = [];
  for (let at = 12; at + 8 <= end;) {
    const type = ascii(file, at, 4);
    const [from, to] = [at + 8, at + 8 + u32le(file, at + 4)];
    if (to > end) throw damaged(name, `the WebP breaks off inside its ${type.trim()} part`);
    chunks.push({ type, from, to });
    at = to + (to % 2);
  }
  return chunks;
};

/**
 * Fewest bits of a macroblock of 16 × 16 pixels: the cheapest kinds of prediction, for light and for colour,
 * take 2.4 and 0.85 (RFC 6386, 11.2 and 11.3, at their fixed probabilities).
 */
const VP8_BLOCK_BITS = 2;

/** RFC 6386, 9.1: three bytes with the size of the first part, a mark, then the size in pixels. */
const vp8Size = (file: Uint8Array, { from, to }: Chunk, name: string): PixelSize => {
  const firstPart = u24le(file, from) >>> 5;
  if (u24le(file, from + 3) !== 0x2a019d || from + 10 + firstPart > to)
    throw damaged(name, 'the WebP breaks off inside its picture');
  const size = {
    widthPx: u16le(file, from + 6) & 0x3fff,
    heightPx: u16le(file, from + 8) & 0x3fff,
  };
  const blocks = Math.ceil(size.widthPx / 16) * Math.ceil(size.heightPx / 16);
  if (blocks * VP8_BLOCK_BITS > firstPart * 8)
    throw damaged(
      name,
      `it is said to be ${size.widthPx} × ${size.heightPx} pixels, more than its ${firstPart} bytes of them can hold`,
    );
  return size;
};

/** RFC 9649, 3.4: a mark, then the size in 14 bits each. */
const vp8lSize = (file: Uint8Array, { from, to }: Chunk, name: string): PixelSize => {
  if (file[from] !== 0x2f || from + 5 > to)
    throw damaged(name, 'the WebP breaks off inside its picture');
  const bits = u32le(file, from + 1);
  return { widthPx: (bits & 0x3fff) + 1, heightPx: ((bits >>> 14) & 0x3fff) + 1 };
};

/** Bits of the first byte of the extended header, RFC 9649 section 2.7. */
const WEBP_ANIMATED = 0x02;

export const readWebpHeader = (file: Uint8Array, name: string): ContainerHeader => {
  const chunks = webpChunks(file, name);
  const chunkOf = (type: string) => chunks.find((chunk) => chunk.type === type);
  const bodyOf = (type: string) => {
    const chunk = chunkOf(type);
    return chunk && file.subarray(chunk.from, chunk.to);
  };
  const [extended, lossy, lossless] = ['VP8X', 'VP8 ', 'VP8L'].map(chunkOf);
  const canvas = extended && {
    widthPx: u24le(file, extended.from + 4) + 1,
    heightPx: u24le(file, extended.from + 7) + 1,
  };
  const animated = extended !== undefined && ((file[extended.from] ?? 0) & WEBP_ANIMATED) !== 0;
  const own = (lossy && vp8Size(file, lossy, name)) ?? (lossless && vp8lSize(file, lossless, name));
  const size = canvas ?? own;
  if (size === undefined || (own === undefined && !animated))
    throw damaged(name, 'the WebP has no picture in it');
  checkSize(size, name);
  if (own && !animated && (own.widthPx !== size.widthPx || own.heightPx !== size.heightPx))
    throw damaged(
      name,
      `the WebP is said to be ${size.widthPx} × ${size.heightPx} pixels and holds ${own.widthPx} × ${own.heightPx}`,
    );
  const icc = bodyOf('ICCP');
  const exif = bodyOf('EXIF');
  const orientation = exif ? exifOrientation(exif) : 1;
  return { ...size, ...(icc ? { icc } : {}), animated, orientation };
};

/** Boxes to open on the way to the item properties, with the bytes before their first child. */
const AVIF_PATH: Readonly<Record<string, number>> = { meta: 4, iprp: 0, ipco: 0 };

/** Reads numbers of 0, 1, 2, 4 or 8 bytes one after the other. */
const numbersFrom = (file: Uint8Array, start: number) => {
  let at = start;
  return (bytes: number): number => {
    let value = 0;
    for (let i = 0; i < bytes; i += 1) value = value * 256 + (file[at++] ?? 0);
    return value;
  };
};

/** Where the pictures' bytes lie (ISO/IEC 14496-12, 8.11.3): all must be inside the file. */
const checkItemPlaces = (file: Uint8Array, box: number, name: string): void => {
  const next = numbersFrom(file, box + 8);
  const version = next(1);
  next(3);
  const [sizes, more] = [next(1), next(1)];
  const indexBytes = version > 0 ? more & 15 : 0;
  const idBytes = version < 2 ? 2 : 4;
  for (let items = next(idBytes); items > 0; items -= 1) {
    next(idBytes);
    const isInFile = version === 0 || (next(2) & 15) === 0;
    next(2);
    const base = next(more >> 4);
    for (let extents = next(2); extents > 0; extents -= 1) {
      next(indexBytes);
      const [offset, length] = [next(sizes >> 4), next(sizes & 15)];
      if (isInFile && base + offset + length > file.length)
        throw damaged(name, 'the AVIF breaks off inside its picture');
    }
  }
};

/** The largest `ispe` (a grid's tiles have smaller ones of their own) and the first ICC `colr`. */
export const readAvifHeader = (file: Uint8Array, name: string): ContainerHeader => {
  let widthPx = 0;
  let heightPx = 0;
  let icc: Uint8Array | undefined;
  const walk = (start: number, end: number): void => {
    for (let at = start; at + 8 <= end;) {
      const length = u32be(file, at);
      const type = ascii(file, at + 4, 4);
      const boxEnd = length === 0 ? end : at + length;
      // Length 1 announces a 64-bit length; only film-sized boxes need it.
      if ((length !== 0 && length < 8) || boxEnd > end) {
        throw damaged(name, 'the AVIF breaks off before its end');
      }
      const skip = AVIF_PATH[type];
      if (skip !== undefined) walk(at + 8 + skip, boxEnd);
      if (type === 'iloc') checkItemPlaces(file, at, name);
      if (type === 'ispe' && u32be(file, at + 12) > widthPx) {
        widthPx = u32be(file, at + 12);
        heightPx = u32be(file, at + 16);
      }
      if (type === 'colr' && /^(prof|rICC)$/.test(ascii(file, at + 8, 4)))
        icc ??= file.subarray(at + 12, boxEnd);
      at = boxEnd;
    }
  };
  walk(0, file.length);
  if (widthPx === 0) throw damaged(name, 'the AVIF breaks off before its picture');
  const animated = hasText(file, 8, 'avis');
  return { widthPx, heightPx, ...(icc ? { icc } : {}), animated, orientation: 1 };
};
