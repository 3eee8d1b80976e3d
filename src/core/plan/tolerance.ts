/**
 * How exact pitch, squareness and centring must be (optics relation 7) for a budget of τ zones: the part of a viewing
 * zone by which the picture may slide over the print.
 */
import type { Lpi, Mm, Rad } from '../units/units.ts';
import { inch, inchToMm, lpi, mm, mmToInch, mmToLpi, rad } from '../units/units.ts';

export interface Tolerance {
  /** ΔLPI ≤ τ / W(in), each way. */
  readonly pitchLpi: Lpi;
  /** The same as a share of the pitch: 0.001 is one part in a thousand. */
  readonly pitchShare: number;
  /** tan α ≤ τ p / L, each way. */
  readonly skewRad: Rad;
  /** How far that skew moves one end of the print across the ribs against the other: τ p. */
  readonly skewMm: Mm;
  /** How far the print may lie from the middle of its rib: τ p. */
  readonly centringMm: Mm;
}

/**
 * @param budget τ, zones, above 0.
 * @param acrossMm size of the print across the ribs.
 * @param alongMm size along them.
 * @throws RangeError that names the field.
 */
export const tolerance = (budget: number, pitchMm: Mm, acrossMm: Mm, alongMm: Mm): Tolerance => {
  for (const [field, value] of Object.entries({ budget, pitchMm, acrossMm, alongMm }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a number above 0, received ${value}`);
  const pitchLpi = lpi(budget / mmToInch(acrossMm));
  return {
    pitchLpi,
    pitchShare: pitchLpi / mmToLpi(pitchMm),
    skewRad: rad(Math.atan((budget * pitchMm) / alongMm)),
    skewMm: mm(budget * pitchMm),
    centringMm: mm(budget * pitchMm),
  };
};

/** The widest print across the ribs that stays within the budget when the pitch is known to ± this. */
export const widestFor = (budget: number, uncertainty: Lpi): Mm =>
  inchToMm(inch(budget / uncertainty));

/** Zones by which the picture slides from edge to edge when the pitch is off by `error`: ΔLPI W(in). */
export const slideFromError = (error: Lpi, acrossMm: Mm): number =>
  Math.abs(error) * mmToInch(acrossMm);

/**
 * The same when paper and printer stretch the print by `stretch` (0.001: one part in a thousand): a stretch is a
 * pitch error of LPI × stretch (relation 7).
 */
export const slideFromStretch = (stretch: number, pitchMm: Mm, acrossMm: Mm): number =>
  slideFromError(lpi(stretch * mmToLpi(pitchMm)), acrossMm);

/** The LPI of a print woven at `woven` and stretched (above 0) or shrunk (below 0). @param stretch above −1. */
export const stretchedLpi = (woven: Lpi, stretch: number): Lpi => lpi(woven / (1 + stretch));
