/** Focus: the thickness and radius that agree, and the angle by the edge ray. */
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';
import type { LensSheet } from './lens.ts';
import { ribRadius } from './lens.ts';
import { surfaceDepth, traceRib } from './trace.ts';

/** The thickness at which light from straight ahead focuses on the print: n R / (n − 1). */
export const focusThickness = (lens: LensSheet): Mm =>
  mm((lens.index * ribRadius(lens)) / (lens.index - 1));

/** How far the print lies behind (positive) or in front of the focus: t − n R / (n − 1). 0 when R is unknown. */
export const focalError = (lens: LensSheet): Mm =>
  lens.radiusMm === undefined ? mm(0) : mm(lens.thicknessMm - focusThickness(lens));

/** Paraxial focal length in air, r / (n − 1). */
export const focalLength = (lens: LensSheet): Mm => mm(ribRadius(lens) / (lens.index - 1));

/** From the flat back to the focus, F − e / n; positive when the focus lies behind the print. */
export const backFocalDistance = (lens: LensSheet): Mm =>
  mm(focalLength(lens) - lens.thicknessMm / lens.index);

/**
 * The observation angle as encyclopaedias give it, by the ray through the edge of the rib: A = asin(p / 2r), h = e −
 * f with f the depth of the rib’s arc, R = A − atan(p / h), I = asin(n sin R / n_air), O = 2 (A − I). It differs from
 * our cone by several degrees (relation 4) and serves for comparison with a supplier’s figure. Undefined where the
 * edge ray is totally reflected or the rib cannot exist.
 */
export const observationAngle = (lens: LensSheet, indexOfAir = 1): Rad | undefined => {
  const radius = ribRadius(lens);
  const half = lens.pitchMm / 2;
  if (half > radius) return undefined;
  const edge = Math.asin(half / radius);
  const arc = radius - Math.sqrt(radius * radius - half * half);
  const inside = edge - Math.atan(lens.pitchMm / (lens.thicknessMm - arc));
  const sine = (lens.index * Math.sin(inside)) / indexOfAir;
  if (Math.abs(sine) > 1) return undefined;
  return rad(2 * (edge - Math.asin(sine)));
};

/** Rays through half the rib are enough, since the other half mirrors them. */
const FOCUS_RAYS = 64;

/**
 * The thickness at which the whole open rib, not only its crest, focuses light from straight ahead best: smallest
 * root mean square of the traced landings (relation 8). A wide rib focuses its edges nearer than its crest, so this
 * is less than `focusThickness`. Landings are linear in thickness, landing = a + b t, so the smallest square is at t
 * = −Σ a b / Σ b².
 * @throws RangeError that names the field for a rib that cannot exist.
 */
export const bestThickness = (lens: LensSheet): Mm => {
  const radiusMm = ribRadius(lens);
  const near = focusThickness({ ...lens, radiusMm });
  const at = (thicknessMm: number) =>
    traceRib({ ...lens, radiusMm, thicknessMm: mm(thicknessMm) }, { angleRad: rad(0) }, FOCUS_RAYS);
  const [these, those] = [at(near), at(near + radiusMm)];
  let cross = 0;
  let square = 0;
  these.forEach((ray, index) => {
    const slope = ((those[index]?.landingMm ?? ray.landingMm) - ray.landingMm) / radiusMm;
    cross += (ray.landingMm - slope * near) * slope;
    square += slope * slope;
  });
  return mm(-cross / square);
};

/**
 * The radius at which the whole rib is in best focus at this sheet’s thickness. Thin sheets are made in this way: by
 * the crest alone, R = t (n − 1) / n, some of them would need a rib wider than its own circle. Undefined when even a
 * half-round rib focuses behind the print.
 */
export const bestFocusRadius = (lens: LensSheet): Mm | undefined => {
  const thicknessFor = (radius: number) => bestThickness({ ...lens, radiusMm: mm(radius) });
  let low = lens.pitchMm / 2;
  let high = Math.max(low, lens.thicknessMm);
  if (thicknessFor(low) > lens.thicknessMm) return undefined;
  for (let step = 0; step < 40; step += 1) {
    const middle = (low + high) / 2;
    if (thicknessFor(middle) < lens.thicknessMm) low = middle;
    else high = middle;
  }
  return mm(high);
};

/** A sheet is in focus between the best focus of the open rib and the focus of its crest. */
export interface FocusCheck {
  readonly bestMm: Mm;
  readonly crestMm: Mm;
  /** Share of the thickness by which the print lies outside that range: below 0 too thin, 0 in focus. */
  readonly off: number;
}

/** Undefined when the radius is unknown: nothing can contradict it. */
export const focusCheck = (lens: LensSheet): FocusCheck | undefined => {
  if (lens.radiusMm === undefined) return undefined;
  const [bestMm, crestMm] = [bestThickness(lens), focusThickness(lens)];
  const t = lens.thicknessMm;
  const outside = t < bestMm ? t - bestMm : Math.max(0, t - crestMm);
  return { bestMm, crestMm, off: outside / (t < bestMm ? bestMm : crestMm) };
};

/** A thickness further than this from focus is a contradiction (our own value; no source). */
export const FOCUS_TOLERANCE = 0.1;

/**
 * The sheet with a radius that can exist. A known radius is kept; otherwise the print is in focus by the crest, or by
 * the whole rib where the crest’s radius cannot exist.
 */
export interface Standing {
  readonly lens: LensSheet & { readonly radiusMm: Mm };
  readonly radiusFrom: 'given' | 'crest' | 'whole-rib';
}

/** Undefined when no rib with these measures can exist. */
export const standing = (lens: LensSheet): Standing | undefined => {
  const radius = ribRadius(lens);
  const stands = (radiusMm: Mm) =>
    radiusMm >= lens.pitchMm / 2 &&
    surfaceDepth({ ...lens, radiusMm }, lens.pitchMm / 2) < lens.thicknessMm;
  if (stands(radius))
    return {
      lens: { ...lens, radiusMm: radius },
      radiusFrom: lens.radiusMm === undefined ? 'crest' : 'given',
    };
  const best = lens.radiusMm === undefined ? bestFocusRadius(lens) : undefined;
  return best === undefined || !stands(best)
    ? undefined
    : { lens: { ...lens, radiusMm: best }, radiusFrom: 'whole-rib' };
};
