/** 16-bit PNG, which a canvas would cut down to 8. */
import { decode } from 'fast-png';
import type { DecodedPng } from 'fast-png';
import { flattenRgb16 } from './alpha.ts';
import type { Ground } from './alpha.ts';
import { asStudioError, damaged } from './image.ts';
import type { DecodedImage } from './image.ts';
import { toSrgb16 } from './icc.ts';
import { pngColour } from './png-colour.ts';
import type { PngHeader } from './png-header.ts';

/** Alpha of every pixel, from its channel or from the one transparent colour of `tRNS`. */
const alphaOf = ({ channels, transparency }: DecodedPng, data: Uint16Array) => {
  if (channels === 1 || channels === 3) {
    if (!transparency) return undefined;
    return Uint16Array.from({ length: data.length / channels }, (_, pixel) =>
      transparency.every((value, c) => data[pixel * channels + c] === value) ? 0 : 65535,
    );
  }
  const alpha = new Uint16Array(data.length / channels);
  let seen = false;
  for (let pixel = 0; pixel < alpha.length; pixel += 1) {
    const value = data[(pixel + 1) * channels - 1] ?? 0;
    alpha[pixel] = value;
    seen ||= value !== 65535;
  }
  return seen ? alpha : undefined;
};

/** The colour channels alone: 1 (grey) or 3 (RGB) of them. */
const withoutAlpha = (data: Uint16Array, channels: number): Uint16Array => {
  if (channels === 1 || channels === 3) return data;
  const kept = channels - 1;
  const out = new Uint16Array((data.length / channels) * kept);
  for (let from = 0, to = 0; from < data.length; from += channels) {
    for (let c = 0; c < kept; c += 1) out[to++] = data[from + c] ?? 0;
  }
  return out;
};

/** @param file the whole file, already walked by readPngHeader, its pixels and profile checked */
export const decodePng16 = async (
  file: Uint8Array,
  header: PngHeader,
  kind: string,
  name: string,
  ground: Ground = 'white',
): Promise<DecodedImage> => {
  let png: DecodedPng;
  try {
    png = decode(file, { checkCrc: true });
  } catch (error) {
    throw asStudioError(error, name, 'PNG');
  }
  const { width, height, data, channels } = png;
  if (!(data instanceof Uint16Array) || data.length !== width * height * channels) {
    throw damaged(name, 'the PNG holds fewer pixels than its header says');
  }
  const { rgb, profile } = await toSrgb16(
    withoutAlpha(data, channels),
    channels < 3 ? 1 : 3,
    pngColour(header, png.iccEmbeddedProfile?.profile, name),
    name,
  );
  const alpha = alphaOf(png, data);
  if (alpha) flattenRgb16(rgb, alpha, ground);
  return {
    widthPx: width,
    heightPx: height,
    channels: 3,
    encoding: 'srgb16',
    data: rgb,
    kind,
    ...(alpha ? { alpha } : {}),
    ...(profile ? { profile } : {}),
  };
};
