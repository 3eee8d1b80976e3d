/**
 * What rails look like under a lens that is not square or not of the pitch, and what their stripes say.
 *
 * Lens and rail are two gratings; what is seen is where the eye's sight lands between the rail's lines.
 * A skew α moves the lens by y tan α at height y, a pitch error by a share of x: the phase runs evenly
 * both ways (relation 7), so stripes are straight, and slant when both are there.
 */
import { LINE_SHARE } from '../pitch/gratings.ts';

/** Stripes counted along a side rail. `moveMm`: what its far end must go sideways, its near end held. */
export const skewFromStripes = (
  stripes: number,
  lengthMm: number,
  pitchMm: number,
): { readonly skewRad: number; readonly moveMm: number } => {
  const moveMm = stripes * pitchMm;
  return { skewRad: Math.atan(moveMm / lengthMm), moveMm };
};

/** Relation 7: zones that a side rail's phase slides through from end to end. */
export const stripesOfSkew = (skewRad: number, lengthMm: number, pitchMm: number): number =>
  (Math.abs(Math.tan(skewRad)) * lengthMm) / pitchMm;

/** How a lens lies on the page: turned about the print's middle, and coarser than woven for by `drift`. */
export interface LensLaid {
  readonly skewRad: number;
  readonly pitchMm: number;
  /** Zones slid for each millimetre across the ribs, from a pitch that is off; 0: it is right. */
  readonly driftPerMm: number;
  /** Of sight under a rib, in ribs: what the lens's spot and the dot smear. */
  readonly smear: number;
}

/**
 * Light seen at a place of a rail, 0 … 1, from its middle across and along the ribs: 1 less the share of
 * the smeared sight that lands on the dark line.
 */
export const railLightAt = (laid: LensLaid, acrossMm: number, alongMm: number): number => {
  const zones = (alongMm * Math.tan(laid.skewRad)) / laid.pitchMm + acrossMm * laid.driftPerMm;
  const off = Math.abs(zones - Math.round(zones));
  const half = laid.smear / 2;
  const edge = LINE_SHARE / 2;
  const covered = Math.min(off + half, edge) - Math.max(off - half, -edge);
  return 1 - Math.max(0, covered) / laid.smear;
};
