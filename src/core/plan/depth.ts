/**
 * The depth budget (optics relations 5 and 6): how far in front of the print and behind it a scene
 * may reach before the lens can no longer show it sharp, and before eyes object.
 */
import type { LensSheet } from '../lens/lens.ts';
import { opticalGap, zoneWidth } from '../lens/lens.ts';
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';

export interface DepthSetting {
  readonly lens: LensSheet;
  readonly viewSlots: number;
  readonly distanceMm: Mm;
  /** γ: 1 reproduces true depth, below 1 flattens it. Above 0. */
  readonly gain: number;
}

/** A stretch of depth: `frontMm` below 0, `behindMm` above 0 or Infinity. */
export interface DepthRange {
  readonly frontMm: Mm;
  readonly behindMm: Mm;
}

/**
 * From one view to the next a point at z moves s(z) = γ D p / (N g) · z / (D + z) on the print
 * (relation 6): positive with the camera's step for z > 0.
 */
export const stepAt = (setting: DepthSetting, z: Mm): Mm => {
  const { lens, viewSlots, distanceMm: distance, gain } = setting;
  const cameraStep = (gain * zoneWidth(lens, distance)) / viewSlots;
  return mm((cameraStep * z) / (distance + z));
};

/**
 * Where |s| reaches `lenticules` pitches. 1: the end of the sharp range, where a point moves one
 * lenticule from view to view (relation 6).
 */
export const rangeWithin = (setting: DepthSetting, lenticules: number): DepthRange => {
  const { lens, viewSlots, distanceMm: distance, gain } = setting;
  const ratio = (lenticules * viewSlots * opticalGap(lens)) / (gain * distance);
  return {
    frontMm: mm((-ratio * distance) / (1 + ratio)),
    behindMm: mm(ratio >= 1 ? Infinity : (ratio * distance) / (1 - ratio)),
  };
};

/** Sharp to one lenticule a view; soft to two, where half the lens's resolution is left (p / |s|). */
export const SHARP_LENTICULES = 1;
/** Beyond two lenticules edges stand apart instead of blurring (ours; no source). */
export const SOFT_LENTICULES = 2;

export type DepthQuality = 'sharp' | 'soft' | 'broken';

export const qualityAt = (setting: DepthSetting, z: Mm): DepthQuality => {
  const lenticules = Math.abs(stepAt(setting, z)) / setting.lens.pitchMm;
  // A rounding above the limit is still the limit.
  if (lenticules <= SHARP_LENTICULES * (1 + 1e-12)) return 'sharp';
  return lenticules <= SOFT_LENTICULES * (1 + 1e-12) ? 'soft' : 'broken';
};

/** The part of the lens's own resolution that is left at z: 1 while sharp, then p / |s|. */
export const resolutionLeft = (setting: DepthSetting, z: Mm): number =>
  Math.min(1, setting.lens.pitchMm / Math.abs(stepAt(setting, z)));

/** The largest gain for which everything from `frontMm` to `behindMm` stays sharp. Infinity when flat. */
export const gainThatFits = (
  setting: Omit<DepthSetting, 'gain'>,
  { frontMm, behindMm }: DepthRange,
): number => {
  const { lens, viewSlots, distanceMm: distance } = setting;
  const limit = (z: number) => {
    if (z === 0) return Infinity;
    // As z grows without end, z / (D + z) tends to 1.
    const part = z === Infinity ? 1 : Math.abs(z) / (distance + z);
    return (viewSlots * opticalGap(lens)) / (distance * part);
  };
  return Math.min(limit(frontMm), limit(behindMm));
};

/** Views between the two eyes: their distance over the width of one view, I N g / (D p). */
export const viewsBetweenEyes = (
  lens: LensSheet,
  viewSlots: number,
  distance: Mm,
  eyesApart: Mm,
): number => (eyesApart * viewSlots) / zoneWidth(lens, distance);

/**
 * Where a thing at z seems to be once the gain has flattened it: the z' whose true parallax equals
 * γ times that of z, z' / (D + z') = γ z / (D + z).
 */
export const perceivedDepth = (z: Mm, distance: Mm, gain: number): Mm => {
  const part = (gain * z) / (distance + z);
  return mm(part >= 1 ? Infinity : (part * distance) / (1 - part));
};

/** Angle between the eyes' axes on a point straight ahead at this range: 2 atan(I / 2 range). */
const vergence = (range: number, eyesApart: Mm): number => 2 * Math.atan(eyesApart / (2 * range));

/**
 * Disparity of a thing at z against the print, for both eyes together: the difference of the two
 * vergence angles. Positive behind. Relation 6 gives its small-angle form, I / D − I / (D + z).
 */
export const disparity = (z: Mm, distance: Mm, eyesApart: Mm): Rad =>
  rad(vergence(distance, eyesApart) - vergence(distance + z, eyesApart));

/** How far things may seem from the print before their disparity exceeds `limit`. */
export const comfortRange = (limit: Rad, distance: Mm, eyesApart: Mm): DepthRange => {
  const onPrint = vergence(distance, eyesApart);
  const rangeOf = (angle: number) => (angle <= 0 ? Infinity : eyesApart / 2 / Math.tan(angle / 2));
  return {
    frontMm: mm(rangeOf(onPrint + limit) - distance),
    behindMm: mm(rangeOf(onPrint - limit) - distance),
  };
};

/** Mean distance between the eyes of adults (Dodgson, Proc. SPIE 5291, 2004). */
export const EYES_APART_MM = mm(63);
/** About one degree is comfortable (Lambooij et al., J. Imaging Sci. Technol. 53(3), 2009). */
export const COMFORT_RAD = rad(Math.PI / 180);
