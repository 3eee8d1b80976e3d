/** What a JPEG says about itself, marker by marker (ITU-T T.81, annex B). */
import { hasText, u16be } from './bytes.ts';
import { damaged } from './image.ts';
import type { PixelSize } from './image.ts';

export interface JpegHeader extends PixelSize {
  /** Low nibble of the SOF marker: 0 baseline, 1 extended, 2 progressive, 3 lossless, 9 … arithmetic. */
  readonly process: number;
  readonly bitDepth: number;
  /** 1 grey, 3 colour, 4 CMYK or YCCK. */
  readonly components: number;
  /** First piece of the embedded ICC profile (APP2), enough for its name. */
  readonly icc?: Uint8Array;
  /** Of all its pieces together. */
  readonly iccBytes: number;
}

const ICC_TAG = 'ICC_PROFILE\0';

const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/**
 * Reads up to the first scan and looks for the end marker behind it. Throws `damaged` when either is
 * missing: browsers fill the missing part of a broken-off JPEG with grey.
 */
export const readJpegHeader = (file: Uint8Array, name: string): JpegHeader => {
  let frame: Omit<JpegHeader, 'icc' | 'iccBytes'> | undefined;
  let icc: Uint8Array | undefined;
  let iccBytes = 0;
  for (let at = 2; ;) {
    while (file[at] === 0xff && file[at + 1] === 0xff) at += 1;
    const marker = file[at + 1] ?? 0;
    const length = u16be(file, at + 2);
    if (file[at] !== 0xff || length < 2 || at + 2 + length > file.length) {
      throw damaged(name, 'the JPEG breaks off inside its header');
    }
    if (isFrame(marker)) {
      frame = {
        process: marker & 15,
        bitDepth: file[at + 4] ?? 0,
        heightPx: u16be(file, at + 5),
        widthPx: u16be(file, at + 7),
        components: file[at + 9] ?? 0,
      };
    } else if (marker === 0xe2 && hasText(file, at + 4, ICC_TAG)) {
      iccBytes += length - 16;
      if (file[at + 16] === 1) icc = file.subarray(at + 18, at + 2 + length);
    }
    at += 2 + length;
    if (marker !== 0xda) continue;
    if (!frame) throw damaged(name, 'the JPEG has pixels but no size');
    if (!hasEnd(file, at)) throw damaged(name, 'the JPEG breaks off before its end');
    return { ...frame, iccBytes, ...(icc ? { icc } : {}) };
  }
};

/** Inside scan data 0xFF is always followed by 0 or a restart marker, so FF D9 can only be the end. */
const hasEnd = (file: Uint8Array, scanStart: number): boolean => {
  for (let at = file.indexOf(0xff, scanStart); at >= 0; at = file.indexOf(0xff, at + 1)) {
    if (file[at + 1] === 0xd9) return true;
  }
  return false;
};
