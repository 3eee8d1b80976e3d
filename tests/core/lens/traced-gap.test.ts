/** The traced gap against the bench of tests/golden, which shares no code with src. */
import { describe, expect, it } from 'vitest';
import { opticalGap } from '../../../src/core/lens/lens.ts';
import { tracedGap, tracedZone } from '../../../src/core/lens/traced-gap.ts';
import { mm } from '../../../src/core/units/units.ts';
import type { BenchLens } from '../../golden/lens-bench.ts';
import { bundlesOfRib } from '../../golden/lens-bench.ts';

const sheetOf = ({ pitchMm, thicknessMm, radiusMm, index }: BenchLens) => ({
  pitchMm: mm(pitchMm),
  thicknessMm: mm(thicknessMm),
  radiusMm: mm(radiusMm),
  index,
});

/** Least squares of where a far eye's light lands, on the tangent of its direction, over the cone. */
const byTheBench = (lens: BenchLens): number => {
  const far = 1e5;
  const edge = (lens.pitchMm * lens.index) / (2 * lens.thicknessMm);
  let [together, squares] = [0, 0];
  for (let i = -100; i <= 100; i += 1) {
    const tangent = (i / 100) * edge;
    const bundles = bundlesOfRib(lens, 0, { acrossMm: tangent * far, distanceMm: far });
    const mean = bundles.reduce((sum, { from, to, share }) => sum + (share * (from + to)) / 2, 0);
    together -= tangent * mean;
    squares += tangent * tangent;
  }
  return together / squares;
};

describe('traced gap', () => {
  it.each([
    ['60 LPI of the demos', 25.4 / 60, 0.84, 0.30446, 1.5685],
    ['slender', 25.4 / 60, 1.2395, 0.45, 1.57],
    ['encyclopaedia article', 0.33665, 0.457, 0.1905, 1.557],
    ['20 LPI', 1.27, 3.0643, 1.1, 1.56],
    ['75 LPI, too thin', 25.4 / 75, 0.52, 0.22, 1.56],
  ])('%s: as the bench has it', (_, pitchMm, thicknessMm, radiusMm, index) => {
    const lens = { pitchMm, thicknessMm, radiusMm, index };
    expect(tracedGap(sheetOf(lens)) / byTheBench(lens)).toBeCloseTo(1, 2.3);
    expect(tracedGap(sheetOf(lens))).toBeLessThan(opticalGap(sheetOf(lens)));
  });

  it('comes to g as ribs get slender', () => {
    const slender = { pitchMm: mm(0.1), thicknessMm: mm(3), index: 1.5 };
    expect(tracedGap(slender) / opticalGap(slender)).toBeCloseTo(1, 3);
  });

  it('scales with the lens, and the zone with the distance', () => {
    const lens = { pitchMm: mm(0.4), thicknessMm: mm(0.9), index: 1.56 };
    const twice = { pitchMm: mm(0.8), thicknessMm: mm(1.8), index: 1.56 };
    expect(tracedGap(twice)).toBeCloseTo(2 * tracedGap(lens), 9);
    expect(tracedZone(lens, mm(800))).toBeCloseTo(2 * tracedZone(lens, mm(400)), 9);
  });

  it('falls back on t / n for a rib that cannot exist', () => {
    const impossible = { pitchMm: mm(0.5), thicknessMm: mm(0.3), index: 1.5 };
    expect(tracedGap(impossible)).toBe(opticalGap(impossible));
  });
});
