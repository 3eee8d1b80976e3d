/** Whether the angle that a supplier states agrees with the sheet’s own numbers. */
import type { Mm, Rad } from '../units/units.ts';
import { mm } from '../units/units.ts';
import { observationAngle } from './focus.ts';
import type { LensSheet } from './lens.ts';
import { viewingCone } from './traced.ts';

/** A stated angle further than this from both computed ones is a contradiction (our own value; no source). */
export const ANGLE_TOLERANCE = 0.15;

export interface AngleCheck {
  readonly coneRad: Rad;
  readonly edgeRad: Rad | undefined;
  /** True when the stated angle is within 15 % of our cone, of the edge-ray angle, or between them. */
  readonly agrees: boolean;
  /** The thickness that has about the stated angle as its cone: t tan(cone / 2) / tan(A / 2) (relation 4). */
  readonly impliedThicknessMm: Mm;
}

/** Compares the angle that a supplier states with the two that follow from the sheet’s own numbers. */
export const angleCheck = (lens: LensSheet, statedRad: Rad): AngleCheck => {
  const coneRad = viewingCone(lens);
  const edgeRad = observationAngle(lens);
  const least = Math.min(coneRad, edgeRad ?? coneRad) * (1 - ANGLE_TOLERANCE);
  const most = Math.max(coneRad, edgeRad ?? coneRad) * (1 + ANGLE_TOLERANCE);
  return {
    coneRad,
    edgeRad,
    agrees: statedRad >= least && statedRad <= most,
    impliedThicknessMm: mm((lens.thicknessMm * Math.tan(coneRad / 2)) / Math.tan(statedRad / 2)),
  };
};
