/**
 * What reading a photo of the strip takes, and what it gives.
 */
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
 * The four corner marks in the photo, of the strip as its file is seen (lying ribs: the turned file):
 * the outer corners of the printed angles, top-left, top-right, bottom-right, bottom-left.
 */
export type PhotoCorners = readonly [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint];

export interface PhotoReadRequest {
  readonly pixels: PhotoPixels;
  readonly strip: StripSpec;
  /** Nominal: its gap is what counts. */
  readonly lens: LensSheet;
  /**
   * Distance of the camera from the strip when it is known. Left out: estimated from the perspective,
   * else taken to be the strip's reading distance, and the doubt is widened accordingly.
   */
  readonly readAtMm?: number | undefined;
  /** Set by hand. Left out: found. */
  readonly corners?: PhotoCorners | undefined;
}

/** What one band showed. */
export interface BandFit {
  readonly band: number;
  readonly bandLpi: number;
  /** Fringes over the strip's width, signed: positive where the band is finer than the lens. */
  readonly fringes: number;
  /** Standard deviation of `fringes`. */
  readonly sigma: number;
  /** What the common pitch would make of this band. */
  readonly fittedFringes: number;
  /** fringes − fittedFringes */
  readonly residual: number;
  /** The band in the photo. */
  readonly outline: PhotoCorners;
  readonly used: boolean;
  /** Why not, where it was not used. */
  readonly why?: string;
}

/** What the phase strip showed. */
export interface PhaseFit {
  /** Signed fringes over the strip's width; positive where the phase strip is finer than the lens. */
  readonly fringes: number;
  readonly sigma: number;
  readonly outline: PhotoCorners;
  readonly used: boolean;
  readonly why?: string;
}

export type PhotoRefusal =
  'no-corners' | 'blur' | 'glare' | 'wrong-strip' | 'lens-turned' | 'too-small' | 'no-fit';

export type PhotoReading =
  | {
      readonly ok: true;
      /** Woven pitch in the print's own inches, restated for the strip's reading distance. */
      readonly pitchLpi: number;
      /** Standard deviation, with the doubt of the camera's distance in it. */
      readonly sigmaLpi: number;
      /** Of the lens on the strip; positive where the ribs are turned clockwise in the strip's own view. */
      readonly skewRad: number;
      readonly skewSigmaRad: number;
      readonly cornersFound: PhotoCorners;
      readonly bands: readonly BandFit[];
      readonly phase?: PhaseFit;
      /** Distance of the camera that was reckoned with, and where it came from. */
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
      /** Where the corners were, when they were found. */
      readonly corners?: PhotoCorners;
    };
