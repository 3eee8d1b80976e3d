/** Gap, pitch and cone of a lens by the bench’s own trace, which shares nothing with src. */
import type { BenchLens } from './lens-bench.ts';
import { bundlesOfRib } from './lens-bench.ts';

const FAR_MM = 1e5;

/** Mean landing of a far eye’s light, to the left of the rib’s middle for an eye on the right. */
const landed = (lens: BenchLens, tangent: number): number =>
  -bundlesOfRib(lens, 0, { acrossMm: tangent * FAR_MM, distanceMm: FAR_MM }).reduce(
    (sum, { from, to, share }) => sum + (share * (from + to)) / 2,
    0,
  );

/** Least squares of the mean landing on the tangent of its direction, from −reach to reach. */
const slopeOver = (lens: BenchLens, reach: number): number => {
  let [together, squares] = [0, 0];
  for (let i = -100; i <= 100; i += 1) {
    const tangent = (i / 100) * reach;
    together += tangent * landed(lens, tangent);
    squares += tangent * tangent;
  }
  return together / squares;
};

/** g': over the whole cone p / 2g. */
export const benchGap = (lens: BenchLens): number =>
  slopeOver(lens, (lens.pitchMm * lens.index) / (2 * lens.thicknessMm));

/** g₀: over a print a fifth as wide as its distance, seen from before its middle. */
export const benchGapAhead = (lens: BenchLens): number => slopeOver(lens, 0.1);

/** The woven pitch: the step of the landings from rib to rib. */
export const benchPitch = (lens: BenchLens, distanceMm: number): number =>
  lens.pitchMm * (1 + benchGapAhead(lens) / distanceMm);

/** The full cone in degrees: between the directions whose light lands half a pitch to either side. */
export const benchConeDeg = (lens: BenchLens): number => {
  let [low, high] = [0, (2 * lens.pitchMm * lens.index) / lens.thicknessMm];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (landed(lens, middle) < lens.pitchMm / 2) low = middle;
    else high = middle;
  }
  return (2 * Math.atan(low) * 180) / Math.PI;
};

/** The lens of a new job, 60 LPI, 0.84 mm, n 1.5685, its radius in focus. */
const usualLens: BenchLens = {
  pitchMm: 25.4 / 60,
  thicknessMm: 0.84,
  index: 1.5685,
  radiusMm: (0.84 * 0.5685) / 1.5685,
};
/** Its g', 0.498 mm, and its g₀, 0.506 mm. */
export const usualGapMm = benchGap(usualLens);
export const usualGapAheadMm = benchGapAhead(usualLens);
