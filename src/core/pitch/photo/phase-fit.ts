/**
 * The phase strip: its red, green and blue give the phase at a place alone (relation 10), with its sign, where the
 * fringes of a band need their neighbours. Inks mix, so it checks the bands but does not outweigh them.
 */
import type { SampledBand } from './sample.ts';
import { PLACES } from './sample.ts';

/** φ = atan2(√3 (I1 − I3), 2 I2 − I1 − I3), radians: the three-step formula of phase-measuring profilometry. */
export const threeStepPhase = (first: number, second: number, third: number): number =>
  Math.atan2(Math.sqrt(3) * (first - third), 2 * second - first - third);

export interface PhaseSlope {
  /** What the phase strip would add to f, lines per mm, and its standard deviation. */
  readonly moreF: number;
  readonly sigmaF: number;
  /** Mean modulation, 0 … 1: how far the colours differ. */
  readonly modulation: number;
}

/** Mixing inks distort the phase by about this, radians, once or twice a turn (our own value, no source). */
const INK_BEND = 0.25;

/** @param expected ψ in turns at a place, from the fit of the bands. */
export const phaseSlope = (
  { rows }: SampledBand,
  expected: (x: number, y: number) => number,
): PhaseSlope => {
  let modulation = 0;
  let count = 0;
  // The phase beyond the expected one, unwrapped along each row.
  const slopes = rows.map((row) => {
    const left = new Float64Array(PLACES);
    for (let i = 0; i < PLACES; i += 1) {
      const [r, g, b] = [0, 1, 2].map((c) => row.light[i * 3 + c]!) as [number, number, number];
      modulation += Math.hypot(Math.sqrt(3) * (r - b), 2 * g - r - b) / 3;
      count += 1;
      const turns = threeStepPhase(r, g, b) / (2 * Math.PI) - expected(row.x[i]!, row.y);
      const before = i === 0 ? turns : left[i - 1]!;
      left[i] = turns - Math.round(turns - before);
    }
    let [xx, x1, xl, l1] = [0, 0, 0, 0];
    for (let i = 0; i < PLACES; i += 1) {
      x1 += row.x[i]! / PLACES;
      l1 += left[i]! / PLACES;
    }
    for (let i = 0; i < PLACES; i += 1) {
      xx += (row.x[i]! - x1) ** 2;
      xl += (row.x[i]! - x1) * (left[i]! - l1);
    }
    return xl / xx;
  });
  const mean = slopes.reduce((sum, one) => sum + one, 0) / slopes.length;
  const spread = Math.sqrt(slopes.reduce((sum, one) => sum + (one - mean) ** 2, 0) / slopes.length);
  const wide = rows[0]!.x.at(-1)! - rows[0]!.x[0]!;
  return {
    moreF: -mean,
    sigmaF: Math.hypot(spread, INK_BEND / (2 * Math.PI) / wide),
    modulation: modulation / count,
  };
};
