/**
 * Where an eye really looks under a rib, by the trace through its whole open width (optics relation 8), and all that
 * follows: gap, woven pitch, cone, zone. Aberration and the refraction of steep rays make the picture under a rib move
 * 5 to 9 % less than t / n says, so plan, weave, proof and Mend all take these and not the paraxial ones of `lens.ts`.
 */
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';
import { standing } from './focus.ts';
import type { LensSheet } from './lens.ts';
import { opticalGap, paraxialCone } from './lens.ts';
import { spot } from './spot.ts';
import { indexAcross } from './trace.ts';

const DIRECTIONS = 12;
const RAYS = 48;

/**
 * A print in the hand is seen straight ahead: as tan θ, half the width of one that is a fifth as wide as its distance.
 * The woven pitch is the step of the landings over such a print.
 */
const AHEAD = 0.1;

/** What the trace of one lens comes to. */
interface Traced {
  readonly gap: Mm;
  readonly gapAhead: Mm;
  /** tan θ of the direction in which the views begin again. */
  readonly edge: number;
}

/** Mean landing in direction tan θ, weighted by energy; to the left of the rib’s middle for an eye on the right. */
const landed = (lens: LensSheet, tangent: number): number | undefined => {
  const seen = spot(lens, { angleRad: rad(Math.atan(tangent)) }, RAYS);
  return seen === undefined ? undefined : -seen.meanMm;
};

/** Best-fitting slope through the origin of landing over tan θ, in equal steps of tan θ up to `reach`. */
const slopeTo = (lens: LensSheet, reach: number): number => {
  let [together, squares] = [0, 0];
  for (let i = 0; i < DIRECTIONS; i += 1) {
    const tangent = ((i + 0.5) / DIRECTIONS) * reach;
    const landing = landed(lens, tangent);
    if (landing === undefined) continue;
    together += tangent * landing;
    squares += tangent * tangent;
  }
  return together / squares;
};

/** Where the landing has moved by half a pitch; undefined where it never does. */
const edgeOf = (lens: LensSheet): number | undefined => {
  const half = lens.pitchMm / 2;
  let low = 0;
  let high = (2 * half) / opticalGap(lens);
  if (!((landed(lens, high) ?? 0) >= half)) return undefined;
  for (let step = 0; step < 30; step += 1) {
    const middle = (low + high) / 2;
    if ((landed(lens, middle) ?? Infinity) < half) low = middle;
    else high = middle;
  }
  return high;
};

const paraxial = (lens: LensSheet): Traced => ({
  gap: opticalGap(lens),
  gapAhead: opticalGap(lens),
  edge: Math.tan(paraxialCone(lens) / 2),
});

const trace = (given: LensSheet): Traced => {
  const lens = standing(given)?.lens;
  if (lens === undefined) return paraxial(given);
  const cone = lens.pitchMm / (2 * opticalGap(lens));
  const [gap, gapAhead] = [slopeTo(lens, cone), slopeTo(lens, Math.min(AHEAD, cone))];
  if (!(gap > 0 && gapAhead > 0)) return paraxial(given);
  return {
    gap: mm(gap),
    gapAhead: mm(gapAhead),
    edge: edgeOf(lens) ?? lens.pitchMm / (2 * gap),
  };
};

/** Traces already made: a page asks for the same few lenses again and again, each time as new objects. */
const known = new Map<string, Traced>();
/** The lens finder looks at some hundred types at once. */
const MOST_KNOWN = 512;

/** The same by object: whoever looks for a distance asks thousands of times of one lens. */
const ofObject = new WeakMap<LensSheet, Traced>();

const tracedOf = (lens: LensSheet): Traced => {
  const seen = ofObject.get(lens);
  if (seen !== undefined) return seen;
  const traced = tracedByFigures(lens);
  ofObject.set(lens, traced);
  return traced;
};

const tracedByFigures = (lens: LensSheet): Traced => {
  const key = `${lens.pitchMm} ${lens.thicknessMm} ${lens.index} ${lens.radiusMm ?? 'in focus'}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  if (known.size >= MOST_KNOWN) known.clear();
  const traced = trace(lens);
  known.set(key, traced);
  return traced;
};

/**
 * g', millimetres: how far the picture under a rib moves for a step of the eye, over its distance; the slope that fits
 * the whole cone. Within 1 % of g for slender ribs, 5 to 7 % below it for a usual 60 LPI, 13 % for a half-round rib.
 * Equal to g for a rib that cannot exist (see `standing`).
 */
export const tracedGap = (lens: LensSheet): Mm => tracedOf(lens).gap;

/** g₀, the same for directions near straight ahead, in which the ribs of a print are seen; for the pitch. */
export const gapAhead = (lens: LensSheet): Mm => tracedOf(lens).gapAhead;

/**
 * How far from the middle of its rib an eye in direction tan θ looks, millimetres, traced over the whole open rib; by
 * the paraxial relation where nothing reaches the print.
 * @param along tangent of the direction along the ribs.
 */
export const landingTowards = (given: LensSheet, tangent: number, along = 0): Mm => {
  const lens = standing(given)?.lens;
  const traced =
    lens === undefined
      ? undefined
      : landed({ ...lens, index: indexAcross(lens.index, tangent, along) }, tangent);
  return mm(traced ?? opticalGap(given) * tangent);
};

/** p_v = p (1 + g₀ / D), the woven pitch for distance D (relation 2). */
export const viewingPitch = (lens: LensSheet, distance: Mm): Mm =>
  mm(lens.pitchMm * (1 + gapAhead(lens) / distance));

/**
 * A woven pitch measured at one distance, converted to another (relation 2): p_v(D2) = p_v(D1) (1 + g₀ / D2) / (1 + g₀
 * / D1).
 */
export const viewingPitchAt = (lens: LensSheet, read: Mm, readFrom: Mm, distance: Mm): Mm => {
  const gap = gapAhead(lens);
  return mm((read * (1 + gap / distance)) / (1 + gap / readFrom));
};

/** The lens pitch that a woven pitch stands for: p = p_v / (1 + g₀ / D), in the millimetres of p_v. */
export const lensPitchFor = (lens: LensSheet, woven: Mm, distance: Mm): Mm =>
  mm(woven / (1 + gapAhead(lens) / distance));

/** Full viewing cone: the directions between which the landing crosses one pitch (relation 4). */
export const viewingCone = (lens: LensSheet): Rad => rad(2 * Math.atan(tracedOf(lens).edge));

/**
 * Width of the zone at distance D in which every view appears once, p D / g' (relation 4): N steps of the cameras. The
 * outermost views are a little wider, so they repeat where the cone ends.
 */
export const zoneWidth = (lens: LensSheet, distance: Mm): Mm =>
  mm((lens.pitchMm * distance) / tracedGap(lens));

/** One rib at one place along it, and an eye; from the middle of the print, eye before the middle along the ribs. */
export interface RibAndEye {
  readonly ribMm: number;
  readonly alongMm?: number;
  readonly eyeMm: number;
  readonly distanceMm: Mm;
}

/**
 * The place u under its rib that an eye sees when the print is woven for its distance (relation 1, traced): where its
 * light lands, counted in woven pitches from the left edge of what was woven for the rib. Below 0 and above 1 it sees
 * what was woven for a neighbour.
 */
export const placeSeen = (
  lens: LensSheet,
  { ribMm, alongMm = 0, eyeMm, distanceMm: D }: RibAndEye,
): number => {
  const landing = landingTowards(lens, (eyeMm - ribMm) / D, alongMm / D);
  return 0.5 - ((ribMm * gapAhead(lens)) / D + landing) / viewingPitch(lens, D);
};
