import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import { evenWidth, spot } from '../../../src/core/lens/spot.ts';
import { mm, rad } from '../../../src/core/units/units.ts';

const article: LensSheet = {
  pitchMm: mm(0.33665),
  thicknessMm: mm(0.457),
  index: 1.557,
  radiusMm: mm(0.1905),
};
const straight = { angleRad: rad(0) };

describe('the spot', () => {
  it('is centred straight ahead, and mirrors with the eye', () => {
    expect(Math.abs(spot(article, straight)?.meanMm ?? NaN)).toBeLessThan(1e-12);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1.2, noNaN: true }), (angle) => {
        const right = spot(article, { angleRad: rad(angle) });
        const left = spot(article, { angleRad: rad(-angle) });
        expect(left?.meanMm).toBeCloseTo(-(right?.meanMm ?? NaN), 12);
        expect(left?.rmsMm).toBeCloseTo(right?.rmsMm ?? NaN, 12);
        expect(left?.fullMm).toBeCloseTo(right?.fullMm ?? NaN, 12);
        expect(left?.reached).toBe(right?.reached);
      }),
    );
  });

  // Third-order spherical aberration (any optics textbook): the spot at the paraxial focus grows as
  // the cube of the aperture. A rib of one radius, opened to a quarter and to a half of that width.
  it('grows as the cube of the opening at the paraxial focus', () => {
    const width = (pitch: number) =>
      spot({ pitchMm: mm(pitch), thicknessMm: mm(3), index: 1.5, radiusMm: mm(1) }, straight, 256)
        ?.fullMm ?? NaN;
    expect(width(0.1) / width(0.05)).toBeCloseTo(8, 1);
  });

  // A flat sheet is the limit of a very large radius: every ray lands straight below its entry, so
  // the spot is as wide as the rib, even, and its root mean square is p / √12.
  it('is as wide as the rib where the rib is flat', () => {
    const flat = spot({ ...article, radiusMm: mm(1e5) }, straight, 500);
    expect(flat?.fullMm).toBeCloseTo(article.pitchMm, 2);
    expect(evenWidth(flat?.rmsMm ?? mm(NaN))).toBeCloseTo(article.pitchMm, 4);
  });

  it('keeps beside the paraxial landing the exact one, closer in for a slanted eye', () => {
    const seen = spot(article, { offsetMm: mm(100), distanceMm: mm(500) });
    expect((seen?.paraxialMm ?? NaN) * 1000).toBeCloseTo(-58.7, 1);
    expect((seen?.crestMm ?? NaN) * 1000).toBeCloseTo(-58.0, 1);
  });

  it('settles as rays are added', () => {
    const coarse = spot(article, { angleRad: rad(0.3) }, 64)?.rmsMm ?? NaN;
    const fine = spot(article, { angleRad: rad(0.3) }, 4096)?.rmsMm ?? NaN;
    expect(Math.abs(coarse / fine - 1)).toBeLessThan(0.02);
  });

  it('says how much of the rib still works from aside', () => {
    expect(spot(article, straight)?.reached).toBe(1);
    expect(spot(article, { angleRad: rad(1.2) })?.reached).toBeLessThan(1);
  });

  it('names the radius when no such rib exists', () => {
    expect(() => spot({ ...article, radiusMm: mm(0.1) }, straight)).toThrow(/^radiusMm:/);
  });
});
