/**
 * What rails look like under a lens with skew or another pitch, and what their stripes mean.
 *
 * Lens and rail are two gratings; the eye sees where its line of sight lands between the lines of the rail. A skew α
 * moves the lens by y tan α at height y, a pitch error by a share of x. The phase is linear both ways (relation 7),
 * so stripes are straight, and slanted when there is skew and pitch error.
 */
import { LINE_SHARE } from '../pitch/gratings.ts';

/**
 * @param stripes counted along a side rail. `moveMm`: how far its far end must move sideways while the near end is
 *   held.
 */
export const skewFromStripes = (
  stripes: number,
  lengthMm: number,
  pitchMm: number,
): { readonly skewRad: number; readonly moveMm: number } => {
  const moveMm = stripes * pitchMm;
  return { skewRad: Math.atan(moveMm / lengthMm), moveMm };
};

/** Relation 7: zones that the phase of a side rail slides through from end to end. */
export const stripesOfSkew = (skewRad: number, lengthMm: number, pitchMm: number): number =>
  (Math.abs(Math.tan(skewRad)) * lengthMm) / pitchMm;

/** How a lens lies on the page: turned about the middle of the print, and with a pitch that is off. */
export interface LensLaid {
  readonly skewRad: number;
  readonly pitchMm: number;
  /** Zones of slide for each millimetre across the ribs, from a pitch error; 0 for none. */
  readonly driftPerMm: number;
  /** Blur of the line of sight under a rib by spot and dot, in ribs. */
  readonly smear: number;
}

/**
 * Light at a place of a rail, 0 … 1, from its middle across and along the ribs: 1 minus the share of the blurred line
 * of sight that lands on the dark line.
 */
export const railLightAt = (laid: LensLaid, acrossMm: number, alongMm: number): number => {
  const zones = (alongMm * Math.tan(laid.skewRad)) / laid.pitchMm + acrossMm * laid.driftPerMm;
  const off = Math.abs(zones - Math.round(zones));
  const half = laid.smear / 2;
  const edge = LINE_SHARE / 2;
  const covered = Math.min(off + half, edge) - Math.max(off - half, -edge);
  return 1 - Math.max(0, covered) / laid.smear;
};
