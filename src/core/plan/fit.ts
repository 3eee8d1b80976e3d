/**
 * How a lens sheet and a printer fit: dots under a rib, how far views mix, how many frames an eye can tell apart.
 * Dots per nominal rib, dpi / LPI, say only what can be printed.
 */
import type { LensSheet } from '../lens/lens.ts';
import { viewingPitch, zoneWidth } from '../lens/traced.ts';
import { dotSpread, mix } from '../lens/mix.ts';
import { evenWidth, spot } from '../lens/spot.ts';
import type { Dpi, Mm } from '../units/units.ts';
import { dotPitchMm, mm } from '../units/units.ts';
import { wholeDots } from './pairing.ts';

export interface Fit {
  /** Dots under one rib, p_v / dot; seldom whole. */
  readonly dots: number;
  /** Frames that can each have a dot of their own. */
  readonly wholeFrames: number;
  /** The rest of a dot, 0 … 1, which two frames share. */
  readonly leftOver: number;
}

/** What the printer can print under one rib, read from `distance`. */
export const fit = (lens: LensSheet, density: Dpi, distance: Mm): Fit => {
  const dots = viewingPitch(lens, distance) / dotPitchMm(density);
  const wholeFrames = wholeDots(dots);
  return { dots, wholeFrames, leftOver: Math.max(0, dots - wholeFrames) };
};

/** What of a printer setting affects mixing. */
export interface Printing {
  readonly acrossDpi: Dpi;
  readonly columns: 'blended' | 'crisp';
}

/**
 * The crosstalk matrix: row i is an eye in the middle of view i’s part of the zone, column j the share of view j in
 * what it sees. Square, viewSlots × viewSlots; rows sum to 1.
 * @throws RangeError that names the field for a rib that cannot exist.
 */
export const crosstalk = (
  lens: LensSheet,
  printing: Printing,
  viewSlots: number,
  distance: Mm,
): number[][] => {
  const zone = zoneWidth(lens, distance);
  const dot = dotSpread(dotPitchMm(printing.acrossDpi), lens.pitchMm, printing.columns);
  return Array.from({ length: viewSlots }, (_, view) => {
    // As the eye moves right, u falls (relation 3). View v lies at u = 1 − (v + ½) / N.
    const u = 1 - (view + 0.5) / viewSlots;
    const seen = spot(lens, { offsetMm: mm((0.5 - u) * zone), distanceMm: distance }, 48);
    const blur = { spot: seen === undefined ? 1 : evenWidth(seen.rmsMm) / lens.pitchMm, dot };
    const row = Array.from({ length: viewSlots }, () => 0);
    for (const { slot, share } of mix(u, viewSlots, blur)) row[slot] = (row[slot] ?? 0) + share;
    return row;
  });
};

/** Share of the wanted view in what is seen, 0 … 1; mean over the zone. */
export const ownShare = (matrix: readonly (readonly number[])[]): number =>
  matrix.reduce((sum, row, view) => sum + (row[view] ?? 0), 0) / matrix.length;

/** Nobody prints more slots than this. */
const MOST_FRAMES = 120;

/**
 * How many frames an eye can tell apart: the most for which the wanted view outweighs all others together, on average
 * over the zone. The half is our own choice (no source); the shares are traced.
 */
export const framesToldApart = (lens: LensSheet, printing: Printing, distance: Mm): number => {
  const isTold = (frames: number) => ownShare(crosstalk(lens, printing, frames, distance)) >= 0.5;
  let told = 1;
  let tooMany = MOST_FRAMES + 1;
  // The share falls as slots narrow, so bisection finds where it crosses one half.
  while (tooMany - told > 1) {
    const middle = Math.floor((told + tooMany) / 2);
    if (isTold(middle)) told = middle;
    else tooMany = middle;
  }
  return told;
};
