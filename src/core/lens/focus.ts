/** Whether a sheet's numbers agree with each other: focus, and the angle a supplier states. */
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';
import type { LensSheet } from './lens.ts';
import { ribRadius } from './lens.ts';

/** Thickness at which light from straight ahead comes to a point on the print: n R / (n − 1). */
export const focusThickness = (lens: LensSheet): Mm =>
  mm((lens.index * ribRadius(lens)) / (lens.index - 1));

/** How far behind (positive) or before its focus the print lies: t − n R / (n − 1). 0 when R is unknown. */
export const focalError = (lens: LensSheet): Mm =>
  lens.radiusMm === undefined ? mm(0) : mm(lens.thicknessMm - focusThickness(lens));

/** Paraxial focal length in air, r / (n − 1). */
export const focalLength = (lens: LensSheet): Mm => mm(ribRadius(lens) / (lens.index - 1));

/** From the flat back to the focus, F − e / n: positive when the focus lies behind the print. */
export const backFocalDistance = (lens: LensSheet): Mm =>
  mm(focalLength(lens) - lens.thicknessMm / lens.index);

/**
 * The observation angle as encyclopaedias give it, by the ray through the rib's edge:
 * A = asin(p / 2r), h = e − f with f the depth of the rib's arc, R = A − atan(p / h),
 * I = asin(n sin R / n_air), O = 2 (A − I). It differs from our cone by several degrees (relation 4);
 * it is here to compare a supplier's figure with.
 * Undefined where the edge ray is totally reflected or the rib cannot exist.
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
