/**
 * The lens sheet in paraxial relations: gap, woven pitch, cone, zone, and where an eye’s line of sight lands. The
 * exact trace is in `trace.ts`. Symbols follow docs/optics.md.
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

/** p_v = p (1 + g / D), the woven pitch for distance D (relation 2). */
export const viewingPitch = (lens: LensSheet, distance: Mm): Mm =>
  mm(lens.pitchMm * (1 + opticalGap(lens) / distance));

/**
 * A woven pitch measured at one distance, converted to another (relation 2): p_v(D2) = p_v(D1) (1 + g / D2) / (1 + g
 * / D1).
 */
export const viewingPitchAt = (read: Mm, gap: Mm, readFrom: Mm, distance: Mm): Mm =>
  mm((read * (1 + gap / distance)) / (1 + gap / readFrom));

/** Full viewing cone, 2 atan(p / 2g) (relation 4). */
export const viewingCone = (lens: LensSheet): Rad =>
  rad(2 * Math.atan(lens.pitchMm / (2 * opticalGap(lens))));

/** Width of the zone at distance D in which every view appears once, p D / g (relation 4). */
export const zoneWidth = (lens: LensSheet, distance: Mm): Mm =>
  mm((lens.pitchMm * distance) / opticalGap(lens));

/**
 * Where on the print an eye looks through the lenticule centred at `lenticuleX` (relation 1): x = x_k (1 + g / D) − g
 * x_e / D. All positions from the middle of the print, right positive.
 */
export const landing = (lens: LensSheet, lenticuleX: Mm, eyeX: Mm, distance: Mm): Mm => {
  const ratio = opticalGap(lens) / distance;
  return mm(lenticuleX * (1 + ratio) - eyeX * ratio);
};

/** v = (1 − u) N: the view at place u ∈ [0, 1) under a rib (relation 3). */
export const viewAtPlace = (u: number, viewSlots: number): number => (1 - u) * viewSlots;

/**
 * The place u ∈ [0, 1) under its rib that an eye straight ahead of a lenticule sees when the print is woven for its
 * distance. It repeats with every zone width of the eye’s sideways position.
 */
export const placeSeen = (lens: LensSheet, eyeX: Mm, distance: Mm): number => {
  const u = 0.5 - eyeX / zoneWidth(lens, distance);
  return u - Math.floor(u);
};
