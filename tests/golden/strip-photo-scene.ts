/** What a photo of a pitch strip is of, where the camera stands, and what is wrong with it. */
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import type { BenchLens } from './lens-bench.ts';

export interface PhotoScene {
  readonly spec: StripSpec;
  /** Undefined: a bare strip. */
  readonly lens: BenchLens | undefined;
  /** The lens on the strip: turned (clockwise positive) and moved across its ribs. */
  readonly skewRad: number;
  readonly shiftMm: number;
  /** Printed length over asked length. */
  readonly stretchAcross: number;
  readonly stretchAlong: number;
  /** Whether the lens lies on the labels and marks as well, or on the bands alone. */
  readonly lensOverAll: boolean;
  /**
   * How far the lens reaches over the field of the bands, shares of its width and height from its first corner:
   * left, right, top, bottom. Left out: over all of it.
   */
  readonly lensReach?: readonly [left: number, right: number, top: number, bottom: number];
  /** Slant distance from the middle of the strip, and the direction: off axis by, towards. */
  readonly distanceMm: number;
  readonly offAxisRad: number;
  readonly towardsRad: number;
  /** Camera turned about its own axis. */
  readonly rollRad: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Share of the frame that the strip fills, the tighter way. */
  readonly fills: number;
  readonly blurPx: number;
  /** Standard deviation in linear light of a white's 1. */
  readonly noise: number;
  readonly jpegQuality: number;
  /** Light falls off by this share from one side to the other, towards an angle. */
  readonly falloff: number;
  readonly falloffTowardsRad: number;
  /** Reflectance = black + (white − black) × asked ** gamma. */
  readonly inkGamma: number;
  /** A bright patch, in linear light at its middle; 0 for none. */
  readonly glare: number;
  readonly seed: number;
}

/** A photo with nothing wrong, to be changed. */
export const plainScene = (spec: StripSpec, lens: BenchLens | undefined): PhotoScene => ({
  spec,
  lens,
  skewRad: 0,
  shiftMm: 0,
  stretchAcross: 1,
  stretchAlong: 1,
  lensOverAll: false,
  distanceMm: spec.readFromMm,
  offAxisRad: 0,
  towardsRad: 0,
  rollRad: 0,
  widthPx: 1800,
  heightPx: 1800,
  fills: 0.88,
  blurPx: 0.7,
  noise: 0.01,
  jpegQuality: 90,
  falloff: 0,
  falloffTowardsRad: 0,
  inkGamma: 1,
  glare: 0,
  seed: 1,
});
