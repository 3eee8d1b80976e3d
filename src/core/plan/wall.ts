/**
 * Wide prints: how steeply the edge ribs are looked at, what they then show, and from where the whole print shows one
 * view.
 */
import type { LensSheet } from '../lens/lens.ts';
import { gapAhead, landingTowards, viewingPitch, zoneWidth } from '../lens/traced.ts';
import type { Lpi, Mm, Rad } from '../units/units.ts';
import { mm, mmToInch, rad } from '../units/units.ts';

export interface WallSetting {
  readonly lens: LensSheet;
  /** W, the print across the ribs. */
  readonly acrossMm: Mm;
  /** D, for which it is woven. */
  readonly distanceMm: Mm;
}

export interface EdgeFacts {
  /** From an eye before the middle to an edge: √(D² + (W / 2)²). */
  readonly awayMm: Mm;
  /** From an eye before one edge to the other one: √(D² + W²). */
  readonly farAwayMm: Mm;
  /** How steeply the eye before the middle looks at the edge: atan(W / 2D). */
  readonly steepRad: Rad;
  /** In which the edge rib shows each view once, as the eye moves sideways at D; Z = p D / g′ (relation 4). */
  readonly coneRad: Rad;
  /** The same of the middle rib. */
  readonly middleConeRad: Rad;
  /**
   * Zones by which the outermost rib shows a later place than it is woven for, since steep rays land elsewhere than g₀
   * says: (traced landing − g₀ tan θ) / p (relation 8). Below 0: an earlier one. The other edge does the opposite.
   */
  readonly slideZones: number;
}

export const edgeFacts = ({ lens, acrossMm, distanceMm: D }: WallSetting): EdgeFacts => {
  const half = acrossMm / 2;
  const zone = zoneWidth(lens, D);
  const tangent = half / D;
  return {
    awayMm: mm(Math.hypot(D, half)),
    farAwayMm: mm(Math.hypot(D, acrossMm)),
    steepRad: rad(Math.atan(tangent)),
    coneRad: rad(Math.atan((half + zone / 2) / D) - Math.atan((half - zone / 2) / D)),
    middleConeRad: rad(2 * Math.atan(zone / (2 * D))),
    slideZones: (landingTowards(lens, tangent) - gapAhead(lens) * tangent) / lens.pitchMm,
  };
};

/** Zones by which a pitch that is known to ± this moves each edge against the middle: half of relation 7. */
export const edgeDoubt = (pitchUnsure: Lpi, acrossMm: Mm): number =>
  (pitchUnsure * mmToInch(acrossMm)) / 2;

/**
 * The distances between which the views slide by no more than `budget` zones from edge to edge: the woven pitch of
 * each differs by that from the one that is woven, |1 / p_v(D′) − 1 / p_v(D)| W ≤ τ (relations 2 and 7).
 * @returns the farthest is Infinity where no distance is too far.
 */
export const standBetween = (
  { lens, acrossMm, distanceMm }: WallSetting,
  budget: number,
): readonly [nearest: Mm, farthest: Mm] => {
  const fineness = 1 / viewingPitch(lens, distanceMm);
  const distanceFor = (pitchMm: number): Mm =>
    mm(pitchMm > lens.pitchMm ? gapAhead(lens) / (pitchMm / lens.pitchMm - 1) : Infinity);
  return [
    distanceFor(1 / (fineness - budget / acrossMm)),
    distanceFor(1 / (fineness + budget / acrossMm)),
  ];
};
