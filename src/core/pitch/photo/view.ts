/**
 * Where the camera looks under each rib (relation 1, exactly): the place on the print that a whole rib shows, traced
 * for the nominal lens. It is the phase, one turn a rib, averaged over the open width of the rib, as fringes show it.
 */
import type { LensSheet } from '../../lens/lens.ts';
import { opticalGap } from '../../lens/lens.ts';
import { traceRib } from '../../lens/trace.ts';
import { rad } from '../../units/units.ts';
import { solve } from '../../numeric/solve.ts';

export interface View {
  /** Landing beside the rib’s middle, mm, for a camera in direction a across and b along (tangents). */
  readonly beside: (a: number, b: number) => number;
  /** Effective gap straight ahead: −d landing / d a at 0. */
  readonly gapMm: number;
}

const meanLanding = (lens: LensSheet, a: number, b: number): number | undefined => {
  // Along the ribs refraction keeps the direction cosine s; across them the sheet acts with this index.
  const s2 = (b * b) / (1 + a * a + b * b);
  const index = Math.sqrt((lens.index ** 2 - s2) / (1 - s2));
  let re = 0;
  let im = 0;
  for (const ray of traceRib({ ...lens, index }, { angleRad: rad(Math.atan(a)) }, 48)) {
    const turn = (2 * Math.PI * ray.landingMm) / lens.pitchMm;
    re += ray.weight * Math.cos(turn);
    im += ray.weight * Math.sin(turn);
  }
  return re === 0 && im === 0 ? undefined : (Math.atan2(im, re) / (2 * Math.PI)) * lens.pitchMm;
};

/** landing = −a (g − ka a² − kb b²), fitted to the trace up to about 25°; otherwise relation 1. */
export const viewThrough = (lens: LensSheet): View => {
  const gap = opticalGap(lens);
  // Landings wrap after half a rib: stay well inside.
  const most = Math.min(0.35, (0.4 * lens.pitchMm) / gap);
  const normal = new Float64Array(9);
  const right = new Float64Array(3);
  try {
    for (const b of [0, 0.2, 0.4])
      for (const share of [0.25, 0.5, 0.75, 1]) {
        const a = share * most;
        const [there, back] = [meanLanding(lens, a, b), meanLanding(lens, -a, b)];
        if (there === undefined || back === undefined) continue;
        const terms = [a, a ** 3, a * b * b];
        const half = (back - there) / 2;
        terms.forEach((one, i) => {
          terms.forEach((two, k) => (normal[i * 3 + k]! += one * two));
          right[i]! += one * half;
        });
      }
  } catch {
    // A rib that cannot exist (a mistyped radius): the paraxial relation still holds.
    return { beside: (a) => -gap * a, gapMm: gap };
  }
  const [g, ka, kb] = solve(normal, right) ?? [gap, 0, 0];
  return {
    beside: (a, b) => -a * (g! + ka! * a * a + kb! * b * b),
    gapMm: g!,
  };
};
