/** Input and result of reading a photo of a failed print. */
import type { Blur } from '../../lens/mix.ts';
import type { PhotoCorners, PhotoPixels } from '../../pitch/photo/photo-terms.ts';
import type { Estimate } from '../counts.ts';
import type { MendSetup } from '../fault.ts';
import type { PitchRead, SkewRead } from '../read-counts.ts';
import type { SmallPicture } from '../seen.ts';

export interface MendPhotoRequest {
  readonly pixels: PhotoPixels;
  /** What was woven: one picture for each view slot; slots of the same frame share one object. */
  readonly pictures: readonly SmallPicture[];
  readonly setup: MendSetup;
  /** Blur of the print as planned. */
  readonly blur: Blur;
  /**
   * The picture’s corners in the photo, as the print is seen from the front: top left, top right, bottom right,
   * bottom left. Left out: the corners of the photo.
   */
  readonly corners?: PhotoCorners | undefined;
  /** Distance of the camera; left out: the one that the print was woven for, with a larger uncertainty. */
  readonly cameraMm?: number | undefined;
}

/** Where each view shows: cells over the picture, row-major as the print is seen. */
export interface ViewMap {
  readonly columns: number;
  readonly rows: number;
  /** u ∈ [0, 1) that each cell looks most like; see `phaseTerms`. */
  readonly place: Float32Array;
  /** How certain that is, 0 … 1. */
  readonly trust: Float32Array;
}

/** A part of the picture that is softer than the rest. Shares of the print's sizes from its middle. */
export interface LiftedPart {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type MendPhotoRefusal = 'alike' | 'flat' | 'no-match' | 'two-ways' | 'corners';

export type MendPhotoReading =
  | {
      readonly ok: true;
      readonly map: ViewMap;
      readonly pitch: PitchRead;
      readonly skew: SkewRead;
      /** How far the print lies out of place: right (lying: down) positive. */
      readonly offsetMm: Estimate;
      /** Spread beyond the plan that fits best, as a share of the pitch: one of a few coarse steps. */
      readonly extraSpread: number;
      readonly lifted: readonly LiftedPart[];
      /** Share of the cells that show their view. */
      readonly told: number;
      /** Whole sentences for the person. */
      readonly cautions: readonly string[];
    }
  | {
      readonly ok: false;
      readonly reason: MendPhotoRefusal;
      readonly sentence: string;
      readonly whatToDo: string;
    };

const words: Record<MendPhotoRefusal, readonly [sentence: string, whatToDo: string]> = {
  alike: [
    'The frames of this print are so alike that no photo can tell which of them shows where.',
    'Count the bands by eye, or print the pitch strip and photograph that.',
  ],
  flat: [
    'Most of the picture is too plain to tell one view from the next.',
    'Take the photo closer, in even light and without reflections; if the picture is plain, count the bands by eye.',
  ],
  'no-match': [
    'The photo does not look like this print, whichever view each place shows.',
    'Check that the photo shows this job’s print, the whole picture, the right way up, and drag the four corners onto the picture’s own.',
  ],
  'two-ways': [
    'Two different pitches or angles explain the photo equally well.',
    'Enter which way the bands run as the head moves, or count them by eye.',
  ],
  corners: [
    'The four corners do not make a picture: three of them lie in one line, or they are crossed.',
    'Drag each corner onto the picture’s own: top left, top right, bottom right, bottom left.',
  ],
};

export const refuse = (reason: MendPhotoRefusal): MendPhotoReading => {
  const [sentence, whatToDo] = words[reason];
  return { ok: false, reason, sentence, whatToDo };
};
