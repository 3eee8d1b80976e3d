/** Sizes out of WebP (RFC 9649) and AVIF (ISO/IEC 23000-22 in an ISO base media file). */
import { hasText, ascii, u16le, u24le, u32be, u32le } from './bytes.ts';
import { exifOrientation } from './orient.ts';
import { damaged } from './image.ts';
import type { PixelSize } from './image.ts';

export interface ContainerHeader extends PixelSize {
  readonly icc?: Uint8Array;
  /** More than one picture: the first is decoded. */
  readonly animated: boolean;
  /** EXIF orientation that the browser does not obey by itself; 1 where there is nothing to do. */
  readonly orientation: number;
}

const webpSize = (file: Uint8Array, name: string): PixelSize => {
  const body = 20;
  switch (ascii(file, 12, 4)) {
    case 'VP8 ':
      return {
        widthPx: u16le(file, body + 6) & 0x3fff,
        heightPx: u16le(file, body + 8) & 0x3fff,
      };
    case 'VP8L': {
      const bits = u32le(file, body + 1);
      return { widthPx: (bits & 0x3fff) + 1, heightPx: ((bits >>> 14) & 0x3fff) + 1 };
    }
    case 'VP8X':
      return { widthPx: u24le(file, body + 4) + 1, heightPx: u24le(file, body + 7) + 1 };
    default:
      throw damaged(name, 'the WebP has no picture in it');
  }
};

/** Bits of the first byte of the extended header, RFC 9649 section 2.7. */
const WEBP_ANIMATED = 0x02;

export const readWebpHeader = (file: Uint8Array, name: string): ContainerHeader => {
  const end = u32le(file, 4) + 8;
  if (end > file.length) throw damaged(name, 'the WebP breaks off before its end');
  const size = webpSize(file, name);
  if (!hasText(file, 12, 'VP8X')) return { ...size, animated: false, orientation: 1 };
  let icc: Uint8Array | undefined;
  let orientation = 1;
  for (let at = 12; at + 8 <= end;) {
    const length = u32le(file, at + 4);
    const body = file.subarray(at + 8, at + 8 + length);
    if (hasText(file, at, 'ICCP')) icc = body;
    if (hasText(file, at, 'EXIF')) orientation = exifOrientation(body);
    at += 8 + length + (length % 2);
  }
  const animated = ((file[20] ?? 0) & WEBP_ANIMATED) !== 0;
  return { ...size, ...(icc ? { icc } : {}), animated, orientation };
};

/** Boxes to open on the way to the item properties, with the bytes before their first child. */
const AVIF_PATH: Readonly<Record<string, number>> = { meta: 4, iprp: 0, ipco: 0 };

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
