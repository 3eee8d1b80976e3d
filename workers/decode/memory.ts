/** What decoding a picture takes of memory, told from its header. */
import { readAvifHeader, readWebpHeader } from './container-header.ts';
import { readExrHeader, windowSize } from './exr-header.ts';
import { checkSize } from './image.ts';
import type { PixelSize } from './image.ts';
import { readJpegHeader } from './jpeg-header.ts';
import { pngSize } from './png-header.ts';
import type { FormatId } from './sniff.ts';

/** Bytes a pixel: the browser's picture and ours, RGBA of 8 bits each. */
const IN_BROWSER = 4 + 4;
/** Samples as they are unpacked, the same in order, colours of 16 bits before and after their profile. */
const OF_16_BITS = 8 + 8 + 6 + 6;
/** The library's floats, RGBA, as they are unpacked and as they are handed on, and ours, RGB. */
const OF_FLOATS = 16 + 16 + 12;

interface Need {
  readonly sizes: readonly PixelSize[];
  readonly bytesAPixel: number;
}

type NeedOf = (file: Uint8Array<ArrayBuffer>, name: string) => Need | Promise<Need>;

const inBrowser =
  (sizeOf: (file: Uint8Array, name: string) => PixelSize): NeedOf =>
  (file, name) => ({ sizes: [sizeOf(file, name)], bytesAPixel: IN_BROWSER });

const needs: Readonly<Record<FormatId, NeedOf>> = {
  png: (file, name) => {
    const size = pngSize(file, name);
    return { sizes: [size], bytesAPixel: size.bitDepth === 16 ? OF_16_BITS : IN_BROWSER };
  },
  jpeg: inBrowser(readJpegHeader),
  webp: inBrowser(readWebpHeader),
  avif: inBrowser(readAvifHeader),
  tiff: async (file, name) => {
    const { tiffSize } = await import('./tiff.ts');
    return { sizes: [await tiffSize(file, name)], bytesAPixel: OF_16_BITS };
  },
  exr: (file, name) => {
    const { dataWindow, displayWindow } = readExrHeader(file, name);
    return { sizes: [dataWindow, displayWindow].map(windowSize), bytesAPixel: OF_FLOATS };
  },
};

/**
 * About how many bytes of memory decoding takes at its highest; the file's own are not counted.
 * @throws StudioError where the header cannot be read or gives a size that is not decoded
 */
export const bytesToDecode = async (
  format: FormatId,
  file: Uint8Array<ArrayBuffer>,
  name: string,
): Promise<number> => {
  const { sizes, bytesAPixel } = await needs[format](file, name);
  for (const size of sizes) checkSize(size, name);
  return bytesAPixel * Math.max(...sizes.map(({ widthPx, heightPx }) => widthPx * heightPx));
};
