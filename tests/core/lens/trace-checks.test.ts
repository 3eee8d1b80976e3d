/** The trace held against other methods: the shortest time, what light is there, relation 1. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import { opticalGap } from '../../../src/core/lens/lens.ts';
import { traceIn, traceOut, traceRib } from '../../../src/core/lens/trace.ts';
import { mm, rad } from '../../../src/core/units/units.ts';

const article: LensSheet = {
  pitchMm: mm(0.33665),
  thicknessMm: mm(0.457),
  index: 1.557,
  radiusMm: mm(0.1905),
};
const lenses = fc
  .record({
    pitch: fc.double({ min: 0.2, max: 1, noNaN: true }),
    roundness: fc.double({ min: 0.6, max: 2, noNaN: true }),
    depth: fc.double({ min: 1.2, max: 3, noNaN: true }),
    index: fc.double({ min: 1.4, max: 1.7, noNaN: true }),
  })
  .map(({ pitch, roundness, depth, index }): LensSheet => ({
    pitchMm: mm(pitch),
    radiusMm: mm(roundness * pitch),
    thicknessMm: mm(depth * roundness * pitch),
    index,
  }));
const slants = fc.double({ min: -0.4, max: 0.4, noNaN: true });
const shares = fc.double({ min: -0.4, max: 0.4, noNaN: true });

/**
 * Fermat: of all ways from the print over the rib to a far eye, light takes one whose optical length
 * is stationary. The length is differentiated over the place on the rib by central differences, and
 * the print's place is sought, by halving, at which the given entry is stationary. No Snell, no normal.
 */
const landingByFermat = (lens: LensSheet, slant: number, entry: number): number => {
  const { thicknessMm: t, index: n } = lens;
  const R = lens.radiusMm as number;
  const length = (x: number, print: number) => {
    const z = R - Math.sqrt(R * R - x * x);
    // In air, to a wave front square to the eye's direction: the eye is on the right, before the sheet.
    return n * Math.hypot(x - print, t - z) - (x * Math.sin(slant) - z * Math.cos(slant));
  };
  const step = 1e-4 * R;
  const turn = (print: number) => {
    const at = (by: number) => length(entry + by * step, print);
    return (8 * (at(1) - at(-1)) - (at(2) - at(-2))) / (12 * step);
  };
  // The turn falls as the print's place moves right.
  let [low, high] = [-20 * t, 20 * t];
  for (let round = 0; round < 80; round += 1) {
    const middle = (low + high) / 2;
    if (turn(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

describe('a second trace, by the least time', () => {
  it('lands where the first does, to a millionth of a millimetre', () => {
    fc.assert(
      fc.property(lenses, shares, slants, (lens, share, slant) => {
        const entry = share * lens.pitchMm;
        const ray = traceIn(lens, { angleRad: rad(slant) }, mm(entry));
        fc.pre(ray !== undefined);
        expect(Math.abs(landingByFermat(lens, slant, entry) - ray.landingMm)).toBeLessThan(1e-6);
      }),
    );
  });
});

describe('light is neither lost nor made', () => {
  // A flat aperture of width p looks p cos θ wide from the direction θ (plain geometry).
  it('the open rib’s rays weigh p cos θ together while none is in shadow', () => {
    fc.assert(
      fc.property(lenses, slants, (lens, slant) => {
        const rays = traceRib(lens, { angleRad: rad(slant) }, 400);
        fc.pre(rays.length === 400);
        const sum = rays.reduce((total, { weight }) => total + weight, 0);
        const width = (sum * lens.pitchMm) / 400;
        expect(Math.abs(width / (lens.pitchMm * Math.cos(slant)) - 1)).toBeLessThan(1e-3);
      }),
    );
  });
});

it('a ray sent back from its landing place leaves towards the eye it came from', () => {
  for (const degrees of [-25, -8, 0, 13, 28])
    for (const share of [-0.3, 0, 0.2]) {
      const slant = (degrees * Math.PI) / 180;
      const entry = mm(share * article.pitchMm);
      const ray = traceIn(article, { angleRad: rad(slant) }, entry);
      expect(ray).toBeDefined();
      expect(traceOut(article, ray!.landingMm, entry)?.angleRad).toBeCloseTo(slant, 10);
    }
});

it('in the paraxial limit every ray of the open rib lands by relation 1 for a focused lens', () => {
  fc.assert(
    fc.property(lenses, (lens) => {
      const R = lens.radiusMm as number;
      const thin = {
        ...lens,
        pitchMm: mm(R / 500),
        thicknessMm: mm((lens.index * R) / (lens.index - 1)),
      };
      const slant = 1e-3;
      for (const { landingMm } of traceRib(thin, { angleRad: rad(slant) }, 9))
        expect(Math.abs(landingMm + opticalGap(thin) * slant)).toBeLessThan(1e-6 * R);
    }),
  );
});
