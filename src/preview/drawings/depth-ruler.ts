/** Where depths lie on the ruler. Equal lengths are equal parallax, so "any distance" has a place. */
import { depthOfPart, parallaxPart } from '../../core/plan/depth.ts';
import type { Mm } from '../../core/units/units.ts';

/** CSS pixels at both ends. */
const EDGE = 16;
/** The ruler cannot reach the eye; it ends at this parallax part. */
const MOST_FRONT = -9;

interface Reach {
  readonly distanceMm: Mm;
  /** Everything that must be on the ruler, mm; Infinity for any distance. */
  readonly depths: readonly number[];
}

/** The ruler for a width. Parts are z / (D + z): below 0 in front, 1 at any distance (relation 6). */
export const layRuler = ({ distanceMm, depths }: Reach, width: number) => {
  const parts = depths
    .filter((z) => z > -distanceMm)
    .map((z) => parallaxPart(z, distanceMm))
    .map((part) => Math.max(MOST_FRONT, Math.min(1, part)));
  const reach = Math.max(...parts.map(Math.abs), 1e-6) * 1.15;
  const [least, most] = [Math.max(MOST_FRONT, -reach), Math.min(1, reach)];
  const perPart = (width - 2 * EDGE) / (most - least);
  const ofPart = (part: number) => EDGE + (Math.max(least, Math.min(most, part)) - least) * perPart;
  return {
    left: EDGE,
    right: width - EDGE,
    /** Place of a depth, limited to the ruler. */
    xOf: (z: number): number => (z <= -distanceMm ? EDGE : ofPart(parallaxPart(z, distanceMm))),
    isOn: (z: number): boolean => {
      const part = z <= -distanceMm ? -Infinity : parallaxPart(z, distanceMm);
      return part >= least - 1e-9 && part <= most + 1e-9;
    },
    /** Depth at a place; Infinity where the ruler ends at any distance. */
    zAt: (x: number): number => depthOfPart(least + (x - EDGE) / perPart, distanceMm),
  };
};
export type Ruler = ReturnType<typeof layRuler>;

/** Depths that may get a figure, in the shown unit, nearest to the print first. */
export const tickSteps = (unit: 'mm' | 'in'): readonly number[] => {
  const powers = unit === 'mm' ? [0, 1, 2, 3, 4] : [-2, -1, 0, 1, 2];
  return powers.flatMap((power) => [1, 2, 5].map((digit) => Number(`${digit}e${power}`)));
};
