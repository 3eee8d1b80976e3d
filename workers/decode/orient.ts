/** Turning and mirroring by the orientation number that TIFF (tag 274) and EXIF share. */
import { ascii, hasText, u16be, u16le, u32be, u32le } from './bytes.ts';
import type { PixelSize } from './image.ts';

type Pixels = Uint8Array | Uint8ClampedArray | Uint16Array | Float32Array;

export interface Oriented<T extends Pixels> extends PixelSize {
  readonly data: T;
}

/**
 * The picture as it should be seen. 1 and unknown numbers leave it as it is.
 * @param data row-major, interleaved, length widthPx × heightPx × channels
 */
export const orient = <T extends Pixels>(
  data: T,
  { widthPx, heightPx }: PixelSize,
  channels: number,
  orientation: number,
): Oriented<T> => {
  if (!(orientation >= 2 && orientation <= 8)) return { widthPx, heightPx, data };
  const sideways = orientation >= 5;
  const [width, height] = sideways ? [heightPx, widthPx] : [widthPx, heightPx];
  // Where the stored 0th row and 0th column are seen: TIFF 6.0, tag Orientation.
  const fromRight = [2, 3, 7, 8].includes(orientation);
  const fromBottom = [3, 4, 6, 7].includes(orientation);
  const out = new (data.constructor as new (length: number) => T)(data.length);
  let to = 0;
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const column = sideways ? y : x;
      const row = sideways ? x : y;
      const storedX = fromRight ? widthPx - 1 - column : column;
      const storedY = fromBottom ? heightPx - 1 - row : row;
      const from = (storedY * widthPx + storedX) * channels;
      for (let c = 0; c < channels; c += 1) out[to++] = data[from + c]!;
    }
  }
  return { widthPx: width, heightPx: height, data: out };
};

/** Orientation from an EXIF block (a small TIFF, CIPA DC-008 4.5), 1 where it has none. */
export const exifOrientation = (block: Uint8Array): number => {
  // Some writers keep the prefix that JPEG needs.
  const exif = hasText(block, 0, 'Exif\0\0') ? block.subarray(6) : block;
  const little = ascii(exif, 0, 2) === 'II';
  const [u16, u32] = little ? [u16le, u32le] : [u16be, u32be];
  const directory = u32(exif, 4);
  const entries = Math.min(u16(exif, directory), 200);
  for (let i = 0; i < entries; i += 1) {
    const at = directory + 2 + i * 12;
    if (u16(exif, at) === 274) return u16(exif, at + 8);
  }
  return 1;
};
