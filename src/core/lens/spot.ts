/**
 * The spot: how far the sight lines of one eye through the whole open width of one rib spread on the
 * print (optics relation 8). A wide spot mixes neighbouring views; the printed dot adds to it.
 */
import type { Mm } from '../units/units.ts';
import { mm } from '../units/units.ts';
import type { LensSheet } from './lens.ts';
import { opticalGap } from './lens.ts';
import type { Eye } from './trace.ts';
import { exactLanding, traceRib } from './trace.ts';

export interface Spot {
  /** Centroid of the spot, from the rib's middle. */
  readonly meanMm: Mm;
  /** Root mean square distance from the centroid. */
  readonly rmsMm: Mm;
  /** From the outermost landing on one side to that on the other. */
  readonly fullMm: Mm;
  /** Landing of the sight line through the crest, exact and by the paraxial relation 1. */
  readonly crestMm: Mm;
  readonly paraxialMm: Mm;
  /** Share of the rays tried that reached the print, 0 … 1; below 1 ribs stand in each other's way. */
  readonly reached: number;
}

/**
 * Traces `rays` sight lines and gathers them, each weighted by the apparent width it stands for.
 * Undefined when not one reaches the print. Reflection losses at the arc are left out.
 * Throws a RangeError naming the field for a rib that cannot exist.
 */
export const spot = (lens: LensSheet, eye: Eye, rays = 64): Spot | undefined => {
  const traced = traceRib(lens, eye, rays);
  if (traced.length === 0) return undefined;
  let weights = 0;
  let first = 0;
  let least = Infinity;
  let most = -Infinity;
  for (const { landingMm, weight } of traced) {
    weights += weight;
    first += weight * landingMm;
    least = Math.min(least, landingMm);
    most = Math.max(most, landingMm);
  }
  const mean = first / weights;
  let second = 0;
  for (const { landingMm, weight } of traced) second += weight * (landingMm - mean) ** 2;
  return {
    meanMm: mm(mean),
    rmsMm: mm(Math.sqrt(second / weights)),
    fullMm: mm(most - least),
    crestMm: exactLanding(lens, eye),
    paraxialMm: mm(-opticalGap(lens) * slope(eye)),
    reached: traced.length / rays,
  };
};

/** x_e / D: the tangent of the eye's direction. */
const slope = (eye: Eye): number =>
  'angleRad' in eye ? Math.tan(eye.angleRad) : eye.offsetMm / eye.distanceMm;

/**
 * Width of an even strip that spreads as much as a root mean square says: an even strip of width w
 * has the root mean square w / √12.
 */
export const evenWidth = (rmsMm: Mm): Mm => mm(rmsMm * Math.sqrt(12));
