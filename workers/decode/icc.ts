/** 16-bit pixels in any described colour to 16-bit sRGB: relative colorimetric, black point compensated. */
import { linearToSrgb } from '../../src/core/colour/srgb.ts';
import { damaged, unsupported } from './image.ts';
import { iccDescription } from './icc-description.ts';
import { multiplyPixels, toRec709 } from './primaries.ts';
import type { Chromaticities } from './primaries.ts';

/** What a file says its numbers mean. `label` is a name for the person. */
export type SourceColour =
  | { readonly type: 'srgb' }
  | { readonly type: 'icc'; readonly profile: Uint8Array; readonly label?: string }
  | {
      readonly type: 'primaries';
      readonly label: string;
      readonly chromaticities: Chromaticities;
      /** Encoded value 0 … 1 to linear light 0 … 1. */
      readonly toLinear: (encoded: number) => number;
    };

export interface SrgbPixels {
  /** Length pixels × 3, sRGB codes 0 … 65535. */
  readonly rgb: Uint16Array;
  /** Name of what was converted; absent where the pixels were sRGB already. */
  readonly profile?: string;
}

/** Profiles that are sRGB, by the descriptions their makers gave them; others are converted. */
const SRGB_NAMES = new Set([
  'sRGB',
  'sRGB IEC61966-2.1',
  'sRGB IEC61966-2-1 black scaled',
  'sRGB built-in',
  'sRGB2014',
  'GIMP built-in sRGB',
  'c2',
]);

const greyToRgb = (grey: Uint16Array): Uint16Array => {
  const rgb = new Uint16Array(grey.length * 3);
  for (let i = 0, to = 0; i < grey.length; i += 1) {
    const value = grey[i] ?? 0;
    rgb[to++] = value;
    rgb[to++] = value;
    rgb[to++] = value;
  }
  return rgb;
};

/** Pixels handed to the colour engine at a time: keeps its own heap small. */
const BLOCK_PIXELS = 1 << 18;

const fromPrimaries = (
  rgb: Uint16Array,
  { chromaticities, toLinear }: Extract<SourceColour, { type: 'primaries' }>,
): void => {
  const light = Float32Array.from({ length: 65536 }, (_, code) => toLinear(code / 65535));
  // Codes of linear light in 1/65535 steps; below the fourth step the curve is a straight line.
  const matrix = toRec709(chromaticities);
  const block = new Float32Array(BLOCK_PIXELS * 3);
  for (let start = 0; start < rgb.length; start += block.length) {
    const codes = rgb.subarray(start, start + block.length);
    const floats = block.subarray(0, codes.length);
    for (let i = 0; i < codes.length; i += 1) floats[i] = light[codes[i] ?? 0] ?? 0;
    multiplyPixels(floats, matrix);
    for (let i = 0; i < codes.length; i += 1) {
      const clipped = Math.min(1, Math.max(0, floats[i] ?? 0));
      codes[i] = Math.round(65535 * linearToSrgb(clipped));
    }
  }
};

const fromIcc = async (
  pixels: Uint16Array,
  channels: 1 | 3,
  profile: Uint8Array,
  name: string,
): Promise<Uint16Array> => {
  const { openTransform } = await import('./colour-engine.ts');
  const transform = await openTransform(profile, channels);
  if ('refused' in transform) {
    if (transform.refused === 'unreadable') throw damaged(name, 'its colour profile is unreadable');
    throw unsupported(
      name,
      `carries a ${transform.refused} colour profile, which does not fit its ${channels === 1 ? 'grey' : 'RGB'} pixels`,
      'Save it with an RGB profile, or as sRGB.',
    );
  }
  try {
    const rgb = new Uint16Array((pixels.length / channels) * 3);
    const step = BLOCK_PIXELS * channels;
    for (let at = 0; at < pixels.length; at += step) {
      rgb.set(transform.run(pixels.subarray(at, at + step)), (at / channels) * 3);
    }
    return rgb;
  } finally {
    transform.close();
  }
};

/**
 * @param pixels interleaved 16-bit codes; RGB ones may be changed in place and returned
 * @param channels 1 (grey) or 3 (RGB), no alpha
 * @throws StudioError `damaged` or `unsupported-variant` when the profile cannot be used
 */
export const toSrgb16 = async (
  pixels: Uint16Array,
  channels: 1 | 3,
  colour: SourceColour,
  name: string,
): Promise<SrgbPixels> => {
  if (colour.type === 'icc') {
    const described = iccDescription(colour.profile);
    if (!SRGB_NAMES.has(described)) {
      const rgb = await fromIcc(pixels, channels, colour.profile, name);
      return { rgb, profile: described || colour.label || 'unnamed profile' };
    }
  }
  const rgb = channels === 1 ? greyToRgb(pixels) : pixels;
  if (colour.type !== 'primaries') return { rgb };
  fromPrimaries(rgb, colour);
  return { rgb, profile: colour.label };
};
