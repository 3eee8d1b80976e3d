/** Formats that the browser decodes: colour managed to sRGB, EXIF orientation obeyed. */
import { alphaOfRgba8, flattenRgba8 } from './alpha.ts';
import type { Ground } from './alpha.ts';
import { damaged } from './image.ts';
import type { DecodedImage } from './image.ts';
import { orient } from './orient.ts';

/**
 * RGBA of 8-bit sRGB codes, opaque. The header must have been checked before: a browser shows the
 * readable part of a broken file without saying so.
 * @param orientation EXIF orientation to apply here; without it the browser's own reading stands
 */
export const decodeInBrowser = async (
  file: Blob,
  name: string,
  kind: string,
  orientation?: number,
  ground: Ground = 'white',
): Promise<DecodedImage> => {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, {
      imageOrientation: orientation === undefined ? 'from-image' : 'none',
    });
  } catch {
    throw damaged(name, `it begins as ${kind} but this browser cannot decode it`);
  }
  const { width, height } = bitmap;
  // Reading back at once: a canvas in main memory spares the trip through the graphics card.
  const context = new OffscreenCanvas(width, height).getContext('2d', {
    willReadFrequently: true,
    colorSpace: 'srgb',
  });
  if (!context) throw new Error('This browser gives workers no 2D canvas.');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  const { data } = context.getImageData(0, 0, width, height, { colorSpace: 'srgb' });
  const size = { widthPx: width, heightPx: height };
  const alpha = alphaOfRgba8(data);
  if (alpha !== undefined) flattenRgba8(data, ground);
  const seen = orient(data, size, 4, orientation ?? 1);
  return {
    ...seen,
    channels: 4,
    encoding: 'srgb8',
    kind,
    ...(alpha === undefined ? {} : { alpha: orient(alpha, size, 1, orientation ?? 1).data }),
  };
};
