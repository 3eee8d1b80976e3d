/**
 * The depth budget (optics relations 5 and 6): how far a scene may reach in front of the print and behind it before
 * the lens no longer shows it sharp, and before it strains the eyes. g' is the traced gap.
 */
import type { LensSheet } from '../lens/lens.ts';
import { tracedGap, zoneWidth } from '../lens/traced.ts';
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';

export interface DepthSetting {
  readonly lens: LensSheet;
  readonly viewSlots: number;
  readonly distanceMm: Mm;
  /** γ, above 0: 1 reproduces true depth, below 1 flattens it. */
  readonly gain: number;
}

/** A range of depth: `frontMm` below 0, `behindMm` above 0 or Infinity. */
export interface DepthRange {
  readonly frontMm: Mm;
  readonly behindMm: Mm;
}

/**
 * Parallax of a point at z as a part of that of a point at infinity: z / (D + z). 0 on the print, 1 at infinity,
 * below 0 in front. Motion from view to view is proportional to it (relation 6).
 */
export const parallaxPart = (z: number, distance: Mm): number =>
  z === Infinity ? 1 : z / (distance + z);

/** The z of a parallax part; Infinity from 1 on. */
export const depthOfPart = (part: number, distance: Mm): Mm =>
  mm(part >= 1 ? Infinity : (part * distance) / (1 - part));

/**
 * Motion of a point at z on the print from one view to the next, s(z) = γ D p / (N g') · z / (D + z) (relation 6);
 * positive with the camera’s step for z > 0.
 */
export const stepAt = (setting: DepthSetting, z: Mm): Mm => {
  const { lens, viewSlots, distanceMm: distance, gain } = setting;
  const cameraStep = (gain * zoneWidth(lens, distance)) / viewSlots;
  return mm(cameraStep * parallaxPart(z, distance));
};

/**
 * Where |s| reaches `lenticules` pitches. At 1 this is the end of the sharp range, where a point moves one rib per
 * view (relation 6).
 */
export const rangeWithin = (setting: DepthSetting, lenticules: number): DepthRange => {
  const { lens, viewSlots, distanceMm: distance, gain } = setting;
  const ratio = (lenticules * viewSlots * tracedGap(lens)) / (gain * distance);
  return { frontMm: depthOfPart(-ratio, distance), behindMm: depthOfPart(ratio, distance) };
};

/** Sharp up to one rib per view; soft up to two, where half of the lens’s resolution is left (p / |s|). */
export const SHARP_LENTICULES = 1;
/** Beyond two ribs per view edges separate instead of blurring (our own value; no source). */
export const SOFT_LENTICULES = 2;

export type DepthQuality = 'sharp' | 'soft' | 'broken';

export const qualityAt = (setting: DepthSetting, z: Mm): DepthQuality => {
  const lenticules = Math.abs(stepAt(setting, z)) / setting.lens.pitchMm;
  // Rounding must not push a value at the limit above it.
  if (lenticules <= SHARP_LENTICULES * (1 + 1e-12)) return 'sharp';
  return lenticules <= SOFT_LENTICULES * (1 + 1e-12) ? 'soft' : 'broken';
};

/** The share of the lens’s resolution that is left at z: 1 while sharp, then p / |s|. */
export const resolutionLeft = (setting: DepthSetting, z: Mm): number =>
  Math.min(1, setting.lens.pitchMm / Math.abs(stepAt(setting, z)));

/** The largest gain at which everything from `frontMm` to `behindMm` stays sharp; Infinity when flat. */
export const gainThatFits = (
  setting: Omit<DepthSetting, 'gain'>,
  { frontMm, behindMm }: DepthRange,
): number => {
  const { lens, viewSlots, distanceMm: distance } = setting;
  const limit = (z: number) => {
    if (z === 0) return Infinity;
    return (viewSlots * tracedGap(lens)) / (distance * Math.abs(parallaxPart(z, distance)));
  };
  return Math.min(limit(frontMm), limit(behindMm));
};

/** Views between the two eyes: their distance / width of one view, I N g' / (D p). */
export const viewsBetweenEyes = (
  lens: LensSheet,
  viewSlots: number,
  distance: Mm,
  eyesApart: Mm,
): number => (eyesApart * viewSlots) / zoneWidth(lens, distance);

/** Where a thing at z appears after the gain has flattened it: the z' with z' / (D + z') = γ z / (D + z). */
export const perceivedDepth = (z: Mm, distance: Mm, gain: number): Mm =>
  depthOfPart(gain * parallaxPart(z, distance), distance);

/**
 * Angle between the axes of the eyes on a point straight ahead whose two pictures on the print are `part` of the
 * eyes’ distance apart. Below 0 the eyes would have to turn outwards.
 */
const vergence = (part: number, distance: Mm, eyesApart: Mm): number =>
  2 * Math.atan((eyesApart * (1 - part)) / (2 * distance));

/**
 * Disparity of a thing at z against the print: the difference of the two vergence angles, after the gain has
 * flattened it. Positive behind. Relation 6 gives its small-angle form at a gain of 1, I / D − I / (D + z).
 */
export const disparity = (z: Mm, distance: Mm, eyesApart: Mm, gain = 1): Rad =>
  rad(
    vergence(0, distance, eyesApart) -
      vergence(gain * parallaxPart(z, distance), distance, eyesApart),
  );

/**
 * The disparity of what moves by `ribsPerView`, however the frames were made: by relation 6 its two pictures are s N
 * g' / (D p) of the eyes’ distance apart.
 */
export const disparityOfStep = (
  ribsPerView: number,
  { lens, viewSlots, distanceMm: distance }: Omit<DepthSetting, 'gain'>,
  eyesApart: Mm,
): Rad =>
  rad(
    vergence(0, distance, eyesApart) -
      vergence((ribsPerView * viewSlots * tracedGap(lens)) / distance, distance, eyesApart),
  );

/** How far from the print things may be before their disparity exceeds `limit` at this gain. */
export const comfortRange = (limit: Rad, distance: Mm, eyesApart: Mm, gain = 1): DepthRange => {
  const onPrint = vergence(0, distance, eyesApart);
  const depthAt = (angle: number) =>
    depthOfPart((1 - (2 * distance * Math.tan(angle / 2)) / eyesApart) / gain, distance);
  return { frontMm: depthAt(onPrint + limit), behindMm: depthAt(onPrint - limit) };
};

/** Mean distance between the eyes of adults (Dodgson, Proc. SPIE 5291, 2004). */
export const EYES_APART_MM = mm(63);
/** About one degree is comfortable (Lambooij et al., J. Imaging Sci. Technol. 53(3), 2009). */
export const COMFORT_RAD = rad(Math.PI / 180);
