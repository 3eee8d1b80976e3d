/**
 * The spot: how far one eye’s lines of sight through the whole open width of a rib spread on the print (optics
 * relation 8). A wide spot mixes neighbouring views; the printed dot adds to it.
 */
import type { Mm } from '../units/units.ts';
import { mm } from '../units/units.ts';
import type { LensSheet } from './lens.ts';
import { opticalGap } from './lens.ts';
import type { Eye } from './trace.ts';
import { exactLanding, traceRib } from './trace.ts';

export interface Spot {
  /** Centroid of the spot, from the middle of the rib. */
  readonly meanMm: Mm;
  /** Root mean square distance from the centroid. */
  readonly rmsMm: Mm;
  /** From the outermost landing on one side to the one on the other. */
  readonly fullMm: Mm;
  /** Landing of the line of sight through the crest: exact, and by the paraxial relation 1. */
  readonly crestMm: Mm;
  readonly paraxialMm: Mm;
  /** Share of the traced rays that reached the print, 0 … 1; below 1 ribs shadow each other. */
  readonly reached: number;
}

/**
 * Traces `rays` lines of sight and weights each by its apparent width. Undefined when none reaches the print.
 * Reflection losses at the arc are left out.
 * @throws RangeError that names the field for a rib that cannot exist.
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

/** x_e / D: tangent of the eye’s direction. */
const slope = (eye: Eye): number =>
  'angleRad' in eye ? Math.tan(eye.angleRad) : eye.offsetMm / eye.distanceMm;

/** Width of the uniform strip with this root mean square: w = rms √12. */
export const evenWidth = (rmsMm: Mm): Mm => mm(rmsMm * Math.sqrt(12));
