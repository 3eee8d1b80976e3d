/**
 * Where the camera looks under each rib (relation 1, exactly): the place on the print that a whole rib shows, traced
 * for the nominal lens. It is the phase, one turn a rib, averaged over the open width of the rib, as fringes show it.
 */
import type { LensSheet } from '../../lens/lens.ts';
import { standing } from '../../lens/focus.ts';
import { opticalGap } from '../../lens/lens.ts';
import { indexAcross, traceRib } from '../../lens/trace.ts';
import { rad } from '../../units/units.ts';
import { solve } from '../../numeric/solve.ts';

export interface View {
  /** Landing beside the rib’s middle, mm, for a camera in direction a across and b along (tangents). */
  readonly beside: (a: number, b: number) => number;
  /** Effective gap straight ahead: −d landing / d a at 0. */
  readonly gapMm: number;
}

const meanLanding = (lens: LensSheet, a: number, b: number): number | undefined => {
  const index = indexAcross(lens.index, a, b);
  let re = 0;
  let im = 0;
  for (const ray of traceRib({ ...lens, index }, { angleRad: rad(Math.atan(a)) }, 48)) {
    const turn = (2 * Math.PI * ray.landingMm) / lens.pitchMm;
    re += ray.weight * Math.cos(turn);
    im += ray.weight * Math.sin(turn);
  }
  return re === 0 && im === 0 ? undefined : (Math.atan2(im, re) / (2 * Math.PI)) * lens.pitchMm;
};

/** Of the terms of landing / a, even in both. */
const powers = (a: number, b: number): number[] => {
  const [a2, b2] = [a * a, b * b];
  return [1, a2, b2, a2 * a2, a2 * b2, b2 * b2];
};

/** Tangents that are traced: up to about 37° across the ribs, 31° along them. */
const ACROSS = Array.from({ length: 15 }, (_, i) => 0.05 * (i + 1));
const ALONG = [0, 0.2, 0.4, 0.6];

/** Half the difference of the landings from either side, followed from straight ahead: landings wrap at half a rib. */
const followed = (lens: LensSheet, b: number): (readonly [a: number, half: number])[] => {
  const found: (readonly [number, number])[] = [];
  let [last, slope] = [0, opticalGap(lens) as number];
  for (const a of ACROSS) {
    const [there, back] = [meanLanding(lens, a, b), meanLanding(lens, -a, b)];
    if (there === undefined || back === undefined) break;
    const expected = last + slope * ACROSS[0]!;
    // Either landing may have wrapped, so the difference is known but for half ribs.
    const raw = (back - there) / 2;
    const half = raw + (lens.pitchMm / 2) * Math.round((expected - raw) / (lens.pitchMm / 2));
    found.push([a, half]);
    [last, slope] = [half, (half - last) / ACROSS[0]!];
  }
  return found;
};

/**
 * landing = −a (g + ka a² + kb b² and the terms of the fourth order), fitted to the trace; otherwise relation 1.
 */
export const viewThrough = (given: LensSheet): View => {
  // A radius that follows from the index must not follow the index for oblique lines of sight.
  const lens = standing(given)?.lens ?? given;
  const gap = opticalGap(lens);
  const count = powers(0, 0).length;
  const normal = new Float64Array(count * count);
  const right = new Float64Array(count);
  try {
    for (const b of ALONG)
      for (const [a, half] of followed(lens, b)) {
        const terms = powers(a, b);
        terms.forEach((one, i) => {
          terms.forEach((two, k) => (normal[i * count + k]! += one * two));
          right[i]! += (one * half) / a;
        });
      }
  } catch {
    // A rib that cannot exist (a mistyped radius): the paraxial relation still holds.
    return { beside: (a) => -gap * a, gapMm: gap };
  }
  const [g, a2, b2, a4, a2b2, b4] = solve(normal, right) ?? [gap, 0, 0, 0, 0, 0];
  return {
    beside: (a, b) => {
      const [aa, bb] = [a * a, b * b];
      return -a * (g! + a2! * aa + b2! * bb + a4! * aa * aa + a2b2! * aa * bb + b4! * bb * bb);
    },
    gapMm: g!,
  };
};
