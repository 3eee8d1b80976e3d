/**
 * The lens sheet, and its paraxial relations as published: gap, woven pitch, cone, zone, and where an eye’s line of
 * sight lands near the axis. They are shown for comparison; what the studio goes by is traced (`traced.ts`). Symbols
 * follow docs/optics.md.
 */
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';

/** One lens sheet. All lengths are above 0. */
export interface LensSheet {
  /** p: lens pitch, measured on the lens. */
  readonly pitchMm: Mm;
  /** t: from the crest of a rib to the print. */
  readonly thicknessMm: Mm;
  /** n: refractive index of the lens material, above 1. */
  readonly index: number;
  /** R: radius of the rib. Left out when unknown: the print is then assumed to be in focus. */
  readonly radiusMm?: Mm;
}

/** The radius of the rib, or the one that would focus on the print: R = t (n − 1) / n. */
export const ribRadius = (lens: LensSheet): Mm =>
  lens.radiusMm ?? mm((lens.thicknessMm * (lens.index - 1)) / lens.index);

/** g = t / n, the optical gap (relation 1). */
export const opticalGap = (lens: LensSheet): Mm => mm(lens.thicknessMm / lens.index);

/** p (1 + g / D), the woven pitch near the axis (relation 2); what is woven is `viewingPitch` of traced.ts. */
export const paraxialPitch = (lens: LensSheet, distance: Mm): Mm =>
  mm(lens.pitchMm * (1 + opticalGap(lens) / distance));

/** Full cone by g, 2 atan(p / 2g) (relation 4). */
export const paraxialCone = (lens: LensSheet): Rad =>
  rad(2 * Math.atan(lens.pitchMm / (2 * opticalGap(lens))));

/** Zone at distance D by g, p D / g (relation 4). */
export const paraxialZone = (lens: LensSheet, distance: Mm): Mm =>
  mm((lens.pitchMm * distance) / opticalGap(lens));

/**
 * Where on the print an eye looks through the lenticule centred at `lenticuleX` (relation 1): x = x_k (1 + g / D) − g
 * x_e / D. All positions from the middle of the print, right positive.
 */
export const paraxialLanding = (lens: LensSheet, lenticuleX: Mm, eyeX: Mm, distance: Mm): Mm => {
  const ratio = opticalGap(lens) / distance;
  return mm(lenticuleX * (1 + ratio) - eyeX * ratio);
};

/** v = (1 − u) N: the view at place u ∈ [0, 1) under a rib (relation 3). */
export const viewAtPlace = (u: number, viewSlots: number): number => (1 - u) * viewSlots;
