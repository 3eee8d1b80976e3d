/** TIFF: 8 and 16 bit, and 32-bit float taken as scene-linear light. */
import { fromArrayBuffer } from 'geotiff';
import type { GeoTIFFImage } from 'geotiff';
import { flattenRgb16 } from './alpha.ts';
import type { Ground } from './alpha.ts';
import { toSrgb16 } from './icc.ts';
import { asStudioError, checkSize } from './image.ts';
import type { DecodedImage, PixelSize } from './image.ts';
import { orient } from './orient.ts';
import { checkTiffDirectories } from './tiff-directory.ts';
import { firstPage, readTiffFacts } from './tiff-facts.ts';
import type { TiffFacts } from './tiff-facts.ts';
import { readSamples } from './tiff-samples.ts';
import type { Samples } from './tiff-samples.ts';

/** YCbCr of JFIF (ITU-R BT.601, full range) to RGB, in place; what JPEG inside TIFF holds. */
const ycbcrToRgb = (data: Samples, samples: number): void => {
  const clamped = new Uint8ClampedArray(3);
  for (let i = 0; i < data.length; i += samples) {
    const y = data[i]!;
    const cb = data[i + 1]! - 128;
    const cr = data[i + 2]! - 128;
    clamped[0] = y + 1.402 * cr;
    clamped[1] = y - 0.344136 * cb - 0.714136 * cr;
    clamped[2] = y + 1.772 * cb;
    data.set(clamped, i);
  }
};

/** Alpha of every pixel as 0 … 65535, or undefined where all is opaque. */
const alphaOf = (data: Samples, { alpha, samples, bits }: TiffFacts, colours: number) => {
  if (alpha === 'none') return undefined;
  const scale = data instanceof Float32Array ? 65535 : 65535 / (2 ** bits - 1);
  const out = new Uint16Array(data.length / samples);
  let opaque = true;
  for (let pixel = 0; pixel < out.length; pixel += 1) {
    const value = Math.min(65535, Math.max(0, data[pixel * samples + colours]! * scale));
    out[pixel] = Math.round(value);
    opaque &&= value === 65535;
  }
  return opaque ? undefined : out;
};

/** Whole or float samples as 16-bit codes of 1 (grey) or 3 channels, alpha divided out. */
const toCodes = (data: Samples, facts: TiffFacts, colours: 1 | 3, alpha?: Uint16Array) => {
  const { samples, photometric, bits, palette } = facts;
  const pixels = data.length / samples;
  if (photometric === 3 && palette) {
    const size = palette.length / 3;
    // Some writers fill the 16-bit palette with 8-bit numbers.
    const scale = palette.every((value) => value < 256) ? 257 : 1;
    return Uint16Array.from(
      { length: pixels * 3 },
      (_, i) => palette[(i % 3) * size + data[Math.floor(i / 3) * samples]!]! * scale,
    );
  }
  const scale = data instanceof Float32Array ? 65535 : 65535 / (2 ** bits - 1);
  const out = new Uint16Array(pixels * colours);
  let to = 0;
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    const a = facts.alpha === 'associated' && alpha ? alpha[pixel]! / 65535 : 1;
    for (let c = 0; c < colours; c += 1) {
      const code = Math.min(65535, Math.max(0, (data[pixel * samples + c]! * scale) / (a || 1)));
      out[to++] = Math.round(photometric === 0 ? 65535 - code : code);
    }
  }
  return out;
};

/** Float samples as linear RGB over the ground. */
const toLight = (data: Samples, facts: TiffFacts, colours: 1 | 3, ground: Ground): Float32Array => {
  const paper = ground === 'white' ? 1 : 0;
  const { samples, alpha, photometric } = facts;
  const out = new Float32Array((data.length / samples) * 3);
  for (let from = 0, to = 0; from < data.length; from += samples) {
    const a = alpha === 'none' ? 1 : Math.min(1, Math.max(0, data[from + colours]!));
    for (let c = 0; c < 3; c += 1) {
      const stored = data[from + (colours === 3 ? c : 0)]!;
      const light = photometric === 0 ? 1 - stored : stored;
      const finite = Number.isFinite(light) ? light : 0;
      out[to++] = (alpha === 'unassociated' ? finite * a : finite) + paper * (1 - a);
    }
  }
  return out;
};

const kindOf = ({ bits, float, photometric, pages }: TiffFacts): string => {
  const grey = photometric < 2 ? ' grey' : '';
  const depth = float ? '32 bit float, taken as linear light' : `${bits} bit`;
  const palette = photometric === 3 ? ' palette' : '';
  return `TIFF, ${depth}${grey}${palette}${pages > 1 ? `, first of ${pages} pages` : ''}`;
};

type Colours = Pick<DecodedImage, 'channels' | 'encoding' | 'data' | 'profile' | 'alpha'>;

const toColours = async (
  data: Samples,
  facts: TiffFacts,
  name: string,
  ground: Ground,
): Promise<Colours> => {
  if (facts.photometric === 6) ycbcrToRgb(data, facts.samples);
  const plain = facts.bits === 8 && facts.samples === 3 && !facts.icc;
  if (plain && facts.photometric !== 3 && data instanceof Uint8Array) {
    return { channels: 3, encoding: 'srgb8', data };
  }
  const colours = facts.photometric === 2 || facts.photometric === 6 ? 3 : 1;
  // A float file with a profile holds that profile's codes, 0 … 1; without one it is a render's light.
  if (facts.float && !facts.icc) {
    return { channels: 3, encoding: 'linear', data: toLight(data, facts, colours, ground) };
  }
  const alpha = alphaOf(data, facts, colours);
  const codes = toCodes(data, facts, colours, alpha);
  const { rgb, profile } = await toSrgb16(
    codes,
    facts.photometric === 3 ? 3 : colours,
    facts.icc ? { type: 'icc', profile: facts.icc } : { type: 'srgb' },
    name,
  );
  if (alpha) flattenRgb16(rgb, alpha, ground);
  return {
    channels: 3,
    encoding: 'srgb16',
    data: rgb,
    ...(alpha ? { alpha } : {}),
    ...(profile ? { profile } : {}),
  };
};

const openTiff = async (file: Uint8Array, name: string) => {
  checkTiffDirectories(file, name);
  const exact = file.byteLength === file.buffer.byteLength ? file : file.slice();
  return firstPage(await fromArrayBuffer(exact.buffer as ArrayBuffer));
};

const sizeOf = (page: GeoTIFFImage): PixelSize => ({
  widthPx: page.getWidth(),
  heightPx: page.getHeight(),
});

/** @throws StudioError, or whatever the library makes of a broken file */
export const tiffSize = async (file: Uint8Array, name: string): Promise<PixelSize> =>
  sizeOf((await openTiff(file, name)).page);

export const decodeTiff = async (
  file: Uint8Array,
  name: string,
  ground: Ground = 'white',
): Promise<DecodedImage> => {
  try {
    const { page, pages } = await openTiff(file, name);
    checkSize(sizeOf(page), name);
    const facts = await readTiffFacts(page, pages, file.length, name);
    const samples = await readSamples(page, facts, name);
    const { data, alpha, ...colours } = await toColours(samples, facts, name, ground);
    return {
      ...orient(data, facts, 3, facts.orientation),
      ...(alpha ? { alpha: orient(alpha, facts, 1, facts.orientation).data } : {}),
      ...colours,
      kind: kindOf(facts),
    };
  } catch (error) {
    throw asStudioError(error, name, 'TIFF');
  }
};
