/** What every decoder hands back, and the checks and errors they share. */
import { StudioError } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';

/**
 * A still picture, decoded: row-major, after EXIF or TIFF orientation, opaque, with sRGB primaries.
 * Length of `data` is widthPx × heightPx × channels.
 */
export interface DecodedImage {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Interleaved. With 4 the last one is alpha and fully opaque everywhere. */
  readonly channels: 3 | 4;
  /**
   * `srgb8`: 8-bit sRGB codes. `srgb16`: 16-bit sRGB codes, 0 … 65535.
   * `linear`: float scene-linear light with Rec. 709 primaries, exposure not yet applied; may lie outside 0 … 1.
   */
  readonly encoding: 'srgb8' | 'srgb16' | 'linear';
  readonly data: Uint8Array | Uint8ClampedArray | Uint16Array | Float32Array;
  /**
   * How much of each pixel was there before it was laid on the ground: length widthPx × heightPx, 0 to the type's
   * largest number. Left out where all was opaque, and for light, whose pictures are shown on their ground.
   */
  readonly alpha?: Uint8Array | Uint16Array;
  /** For the person: "PNG, 16 bit", "OpenEXR, half float", "JPEG". */
  readonly kind: string;
  /** Name of the embedded profile that was converted to sRGB, where there was one. */
  readonly profile?: string;
}

/** Width and height in pixels, read from a header before any pixel is decoded. */
export interface PixelSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Longest side and area that are decoded; beyond them a browser's canvas and memory give out. */
export const MAX_SIDE_PX = 20_000;
export const MAX_AREA_PX = 200_000_000;

export const damaged = (name: string, why: string): StudioError =>
  new StudioError(
    'damaged',
    `"${nameInText(name)}" is damaged: ${why}. Copy it again from where it was made, or render that frame again.`,
    name,
  );

export const unsupported = (name: string, what: string, remedy: string): StudioError =>
  new StudioError('unsupported-variant', `"${nameInText(name)}" ${what}. ${remedy}`, name);

/** Throws `damaged` for an empty picture and `too-large` beyond the limits. */
export const checkSize = ({ widthPx, heightPx }: PixelSize, name: string): void => {
  if (!(widthPx > 0 && heightPx > 0)) {
    throw damaged(name, `its header gives a size of ${widthPx} × ${heightPx} pixels`);
  }
  if (Math.max(widthPx, heightPx) <= MAX_SIDE_PX && widthPx * heightPx <= MAX_AREA_PX) return;
  const megapixels = ((widthPx * heightPx) / 1e6).toFixed(0);
  throw new StudioError(
    'too-large',
    `"${nameInText(name)}" is ${widthPx} × ${heightPx} pixels (${megapixels} megapixels); the studio reads up to ` +
      `${MAX_SIDE_PX} pixels a side and ${MAX_AREA_PX / 1e6} megapixels. ` +
      'Make the frame smaller: the Shoot bench gives the size this lens can show.',
    name,
  );
};

/** A library's own complaint turned into `damaged`; errors that are already ours pass through. */
export const asStudioError = (error: unknown, name: string, format: string): StudioError => {
  if (error instanceof StudioError) return error;
  if (
    error instanceof RangeError &&
    // Not "invalid length", which is what numbers that make no sense lead to.
    /allocation (failed|size)|out of memory/i.test(error.message)
  ) {
    return new StudioError(
      'too-large',
      `"${nameInText(name)}" does not fit into this browser's memory. Close other pages, or make the frame smaller.`,
      name,
    );
  }
  const detail = error instanceof Error ? error.message : String(error);
  return damaged(name, `it begins as ${format} but cannot be read to its end (${detail})`);
};
