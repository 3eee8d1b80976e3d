/**
 * How a lens sheet and a printer fit: dots under a rib, how far views mix, how many frames an eye can tell apart.
 * Dots per nominal rib, dpi / LPI, say only what can be printed.
 */
import type { LensSheet } from '../lens/lens.ts';
import { viewingPitch, zoneWidth } from '../lens/traced.ts';
import { mix } from '../lens/mix.ts';
import { traceRib } from '../lens/trace.ts';
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

const RAYS = 48;

/**
 * What an eye sees of each view slot, by slot: each line of sight through the open rib shows the slots where it lands,
 * widened by the printed dot. The light of a steep direction lands unevenly, with a tail towards the middle of the rib,
 * so a strip of the same spread around the middle would see far too much of the next rib (relation 8).
 * @param eyeMm sideways from straight ahead.
 * @returns shares that sum to 1.
 * @throws RangeError that names the field for a rib that cannot exist.
 */
export const sharesSeen = (
  lens: LensSheet,
  printing: Printing,
  viewSlots: number,
  distance: Mm,
  eyeMm: number,
): number[] => {
  const woven = viewingPitch(lens, distance);
  // A dot is as wide as itself; blended, it also averages the slots over its width.
  const dot = dotPitchMm(printing.acrossDpi) / woven;
  const blur = { spot: printing.columns === 'blended' ? dot : 0, dot };
  const rays = traceRib(lens, { offsetMm: mm(eyeMm), distanceMm: distance }, RAYS);
  const shares = Array.from({ length: viewSlots }, () => 0);
  const whole = rays.reduce((sum, { weight }) => sum + weight, 0);
  // Nothing reaches the print: all slots count alike.
  if (!(whole > 0)) return shares.fill(1 / viewSlots);
  for (const { landingMm, weight } of rays)
    for (const { slot, share } of mix(landingMm / woven + 0.5, viewSlots, blur))
      shares[slot] = (shares[slot] ?? 0) + (share * weight) / whole;
  return shares;
};

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
  // The eye stands where camera v does: (v − (N − 1) / 2) steps of a zone / N (relation 5). The right half mirrors the
  // left one.
  const left = Array.from({ length: Math.ceil(viewSlots / 2) }, (_, view) =>
    sharesSeen(lens, printing, viewSlots, distance, ((view + 0.5) / viewSlots - 0.5) * zone),
  );
  const right = left.slice(0, Math.floor(viewSlots / 2)).map((row) => [...row].reverse());
  return [...left, ...right.reverse()];
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
