/** The colour engine (Little CMS as WebAssembly). Imported only when a profile has to be converted. */
import { INTENT_RELATIVE_COLORIMETRIC, TYPE_GRAY_16, TYPE_RGB_16, instantiate } from 'lcms-wasm';
import { StudioError } from '../../src/contract/errors.ts';
import wasmUrl from 'lcms-wasm/dist/lcms.wasm?url';

/** lcms2.h: scale black to black, so that a deep source black does not clip. */
export const BLACK_POINT_COMPENSATION = 0x2000;
/**
 * lcms2.h: no merging of curves and matrices into one table. The table is four times as fast (0.1 s instead
 * of 0.1 … 0.5 s for 1200 × 1500) but was up to 13 of 255 codes off for saturated Adobe RGB; this is within 0.1.
 */
export const NO_OPTIMIZE = 0x0100;

export interface Transform {
  /** 16-bit pixels in, RGB 16-bit sRGB codes out; length pixels × 3. */
  readonly run: (pixels: Uint16Array) => Uint16Array;
  /** Gives the engine's memory back. */
  readonly close: () => void;
}

export interface Refusal {
  /** 'unreadable', or the profile's colour space when it does not fit the pixels. */
  readonly refused: string;
}

let engine: ReturnType<typeof instantiate> | undefined;

/** Loaded once; what could not be loaded is tried again with the next picture. */
export const openEngine = async (): ReturnType<typeof instantiate> => {
  try {
    return await (engine ??= instantiate({ locateFile: () => wasmUrl }));
  } catch (error) {
    engine = undefined;
    throw new StudioError(
      'internal',
      `The part of the studio that converts colours could not be loaded (${String(error)}). Reload the page, then try again.`,
    );
  }
};

/** A profile that breaks the engine must not break it for the pictures that come after. */
export const orForget = <T>(work: () => T): T => {
  try {
    return work();
  } catch (error) {
    engine = undefined;
    throw error;
  }
};

/** @param channels of the pixels: 1 grey, 3 RGB */
export const openTransform = async (
  profileBytes: Uint8Array,
  channels: 1 | 3,
): Promise<Transform | Refusal> => {
  const lcms = await openEngine();
  return orForget(() => transformOf(lcms, profileBytes, channels));
};

const transformOf = (
  lcms: Awaited<ReturnType<typeof instantiate>>,
  profileBytes: Uint8Array,
  channels: 1 | 3,
): Transform | Refusal => {
  const source = lcms.cmsOpenProfileFromMem(profileBytes, profileBytes.length);
  if (!source) return { refused: 'unreadable' };
  const srgb = lcms.cmsCreate_sRGBProfile();
  try {
    const space = lcms.cmsGetColorSpaceASCII(source) ?? 'foreign';
    if (space !== (channels === 1 ? 'GRAY' : 'RGB')) return { refused: space };
    const handle = lcms.cmsCreateTransform(
      source,
      channels === 1 ? TYPE_GRAY_16 : TYPE_RGB_16,
      srgb,
      TYPE_RGB_16,
      INTENT_RELATIVE_COLORIMETRIC,
      BLACK_POINT_COMPENSATION | NO_OPTIMIZE,
    );
    if (!handle) return { refused: 'unreadable' };
    return {
      run: (pixels) =>
        orForget(() => lcms.cmsDoTransform(handle, pixels, pixels.length / channels)),
      close: () => lcms.cmsDeleteTransform(handle),
    };
  } finally {
    // A transform keeps its own copy of what it needs.
    lcms.cmsCloseProfile(source);
    lcms.cmsCloseProfile(srgb);
  }
};
