/** Input and result of reading a photo of the strip. */
import type { LensSheet } from '../../lens/lens.ts';
import type { StripSpec } from '../strip.ts';

export interface PhotoPixels {
  readonly widthPx: number;
  readonly heightPx: number;
  /** RGBA, row-major, sRGB-encoded 0…255 */
  readonly data: Uint8ClampedArray;
}

export interface PhotoPoint {
  readonly xPx: number;
  readonly yPx: number;
}

/**
 * The four corner marks in the photo, with the strip as its file is seen (lying ribs: the turned file): the outer
 * corners of the printed angles, top left, top right, bottom right, bottom left.
 */
export type PhotoCorners = readonly [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint];

export interface PhotoReadRequest {
  readonly pixels: PhotoPixels;
  readonly strip: StripSpec;
  /** Nominal; its gap is used. */
  readonly lens: LensSheet;
  /**
   * Distance of the camera from the strip, if known. Left out: estimated from the perspective, or else assumed to be
   * the strip’s reading distance, with a larger uncertainty.
   */
  readonly readAtMm?: number | undefined;
  /** Set by hand; left out: found in the photo. */
  readonly corners?: PhotoCorners | undefined;
}

/** The result of one band. */
export interface BandFit {
  readonly band: number;
  readonly bandLpi: number;
  /** Fringes over the strip's width, signed: positive where the band is finer than the lens. */
  readonly fringes: number;
  /** Standard deviation of `fringes`. */
  readonly sigma: number;
  /** Fringes of this band at the common pitch. */
  readonly fittedFringes: number;
  /** fringes − fittedFringes */
  readonly residual: number;
  /** The band in the photo. */
  readonly outline: PhotoCorners;
  readonly used: boolean;
  /** The reason, where it was not used. */
  readonly why?: string;
}

/** The result of the phase strip. */
export interface PhaseFit {
  /** Signed fringes over the strip's width; positive where the phase strip is finer than the lens. */
  readonly fringes: number;
  readonly sigma: number;
  readonly outline: PhotoCorners;
  readonly used: boolean;
  readonly why?: string;
}

export type PhotoRefusal =
  | 'no-corners'
  | 'blur'
  | 'glare'
  | 'wrong-strip'
  | 'lens-turned'
  | 'lens-askew'
  | 'other-lens'
  | 'part-covered'
  | 'too-small'
  | 'no-fit';

export type PhotoReading =
  | {
      readonly ok: true;
      /** Woven pitch in the print’s own inches, for the strip’s reading distance. */
      readonly pitchLpi: number;
      /** Standard deviation, including that of the camera’s distance. */
      readonly sigmaLpi: number;
      /** What it would be if the distance were typed; the same where it was. */
      readonly sigmaTypedLpi: number;
      /** Skew of the lens on the strip; positive where the ribs are turned clockwise as the strip is seen. */
      readonly skewRad: number;
      readonly skewSigmaRad: number;
      readonly cornersFound: PhotoCorners;
      readonly bands: readonly BandFit[];
      readonly phase?: PhaseFit;
      /** Distance of the camera that was used, and where it came from. */
      readonly cameraMm: number;
      readonly cameraFrom: 'typed' | 'perspective' | 'assumed';
      /** Whole sentences for the person. */
      readonly cautions: readonly string[];
    }
  | {
      readonly ok: false;
      readonly reason: PhotoRefusal;
      /** What was wrong with the photo. */
      readonly sentence: string;
      readonly whatToDo: string;
      /** The corners, where they were found. */
      readonly corners?: PhotoCorners;
    };
