import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import { opticalGap, paraxialLanding } from '../../../src/core/lens/lens.ts';
import type { Eye } from '../../../src/core/lens/trace.ts';
import { exactLanding, traceIn, traceOut, traceRib } from '../../../src/core/lens/trace.ts';
import { mm, rad } from '../../../src/core/units/units.ts';

/** The lens of the encyclopaedia article "Lenticular printing / Lenticular optics". */
const article: LensSheet = {
  pitchMm: mm(0.33665),
  thicknessMm: mm(0.457),
  index: 1.557,
  radiusMm: mm(0.1905),
};

/** Lenses that can be made: radius above half the pitch, sheet thicker than its ribs. */
const lenses = fc
  .record({
    pitch: fc.double({ min: 0.1, max: 2, noNaN: true }),
    roundness: fc.double({ min: 0.52, max: 2, noNaN: true }),
    depth: fc.double({ min: 1.1, max: 4, noNaN: true }),
    index: fc.double({ min: 1.4, max: 1.7, noNaN: true }),
  })
  .map(({ pitch, roundness, depth, index }): LensSheet => ({
    pitchMm: mm(pitch),
    radiusMm: mm(roundness * pitch),
    thicknessMm: mm(depth * roundness * pitch),
    index,
  }));
const shares = fc.double({ min: -0.49, max: 0.49, noNaN: true });
const slants = fc.double({ min: -0.6, max: 0.6, noNaN: true });
const far = (angle: number): Eye => ({ angleRad: rad(angle) });

describe('the ray trace against published numbers', () => {
  // Encyclopaedia article, edge-ray formulas (formulas from memory, example read): the ray from one
  // edge of the strip through the other edge of its rib; O = 2 (A − I), with n_air 1.003.
  it.each([
    [1.003, 64.6, 0.05],
    [1, 64.42, 0.005],
  ])('leaves the far edge at half the observation angle, n_air %f', (air, degrees, within) => {
    const half = mm(article.pitchMm / 2);
    const ray = traceOut({ ...article, index: article.index / air }, mm(-half), half);
    expect(Math.abs((2 * (ray?.angleRad ?? NaN) * 180) / Math.PI - degrees)).toBeLessThan(within);
  });

  // docs/optics.md, check values: computed there by an exact trace and by relation 1.
  it('lands 58.03 µm off for an eye 100 mm off centre at 500 mm, paraxially 58.70', () => {
    const exact = exactLanding(article, { offsetMm: mm(100), distanceMm: mm(500) });
    expect(exact * 1000).toBeCloseTo(-58.03, 1);
    expect(Math.abs(exact * 1000 + 58.03)).toBeLessThan(0.01);
    expect(Math.abs(paraxialLanding(article, mm(0), mm(100), mm(500)) * 1000 + 58.7)).toBeLessThan(
      0.005,
    );
  });

  // Paraxial focus of one refracting surface, n R / (n − 1): any optics textbook (e.g. Hecht, Optics, 5.2).
  it('brings rays near the crest together at n R / (n − 1)', () => {
    const focused = { ...article, thicknessMm: mm((1.557 * 0.1905) / 0.557) };
    for (const entry of [-0.004, -0.002, 0.002, 0.004])
      expect(Math.abs(traceIn(focused, far(0), mm(entry))?.landingMm ?? NaN)).toBeLessThan(
        entry ** 2 / 10,
      );
  });
});

describe('the ray trace as optics', () => {
  it('is its own way back: a ray out in some direction is the ray in from it', () => {
    fc.assert(
      fc.property(lenses, shares, slants, (lens, share, slant) => {
        const entry = mm(share * lens.pitchMm);
        const inward = traceIn(lens, far(slant), entry);
        if (inward === undefined) return;
        const outward = traceOut(lens, inward.landingMm, entry);
        expect(outward?.shadowed).toBe(false);
        expect(Math.abs((outward?.angleRad ?? NaN) - slant)).toBeLessThan(1e-7);
      }),
    );
  });

  it('mirrors when the eye and the entry do', () => {
    fc.assert(
      fc.property(lenses, shares, slants, (lens, share, slant) => {
        const entry = share * lens.pitchMm;
        const one = traceIn(lens, far(slant), mm(entry));
        const other = traceIn(lens, far(-slant), mm(-entry));
        expect(other === undefined).toBe(one === undefined);
        if (one !== undefined && other !== undefined)
          expect(Math.abs(one.landingMm + other.landingMm)).toBeLessThan(1e-9 * lens.thicknessMm);
      }),
    );
  });

  it('tends to relation 1 for small angles: the difference falls as the cube', () => {
    fc.assert(
      fc.property(lenses, fc.double({ min: 1e-3, max: 0.05, noNaN: true }), (lens, slant) => {
        const paraxial = -opticalGap(lens) * Math.tan(slant);
        const off = Math.abs(exactLanding(lens, far(slant)) - paraxial);
        expect(off).toBeLessThan(opticalGap(lens) * slant ** 3);
      }),
    );
  });

  it('moves the landing against the eye', () => {
    expect(exactLanding(article, far(0.2))).toBeLessThan(exactLanding(article, far(0.1)));
  });

  it('takes an eye far off for one at infinity', () => {
    const near = exactLanding(article, { offsetMm: mm(2e5), distanceMm: mm(1e6) });
    expect(near).toBeCloseTo(exactLanding(article, far(Math.atan(0.2))), 9);
  });
});

describe('rays that do not arrive', () => {
  it('loses rays to the neighbouring rib at steep angles, none straight ahead', () => {
    expect(traceRib(article, far(0))).toHaveLength(64);
    const steep = traceRib(article, far(1.2));
    expect(steep.length).toBeGreaterThan(0);
    expect(steep.length).toBeLessThan(64);
    // The eye is on the right: what is hidden is the side turned away from it, or behind its neighbour.
    expect(traceIn(article, far(1.2), mm(-0.168))).toBeUndefined();
  });

  it('reports total reflection: beyond sin i = 1 / n nothing leaves', () => {
    // At the crest the surface is level, so i is the slope of the ray inside. Snell's critical angle.
    const critical = Math.asin(1 / article.index);
    const placeFor = (angle: number) => mm(-article.thicknessMm * Math.tan(angle));
    expect(traceOut(article, placeFor(critical * 1.001), mm(0))).toBeUndefined();
    expect(traceOut(article, placeFor(critical * 0.999), mm(0))?.angleRad).toBeGreaterThan(1.5);
  });
});

describe('ribs that cannot exist', () => {
  it.each([
    ['radiusMm', { radiusMm: mm(0.16) }],
    ['thicknessMm', { thicknessMm: mm(0.09) }],
    ['thicknessMm', { thicknessMm: mm(NaN) }],
    ['pitchMm', { pitchMm: mm(0) }],
    ['index', { index: 1 }],
  ])('names %s', (field, change) => {
    expect(() => traceRib({ ...article, ...change }, far(0))).toThrow(RangeError);
    expect(() => traceRib({ ...article, ...change }, far(0))).toThrow(new RegExp(`^${field}:`));
  });

  it('says so when the radius was worked out from the focus', () => {
    const lens = { pitchMm: mm(1), thicknessMm: mm(1), index: 1.5 };
    expect(() => exactLanding(lens, far(0))).toThrow(/focuses on the print/);
  });

  it('refuses an entry beside the rib', () => {
    expect(() => traceIn(article, far(0), mm(0.2))).toThrow(/^entryMm:/);
    expect(() => traceOut(article, mm(0), mm(-0.2))).toThrow(/^exitMm:/);
    expect(() => traceRib(article, far(0), 1.5)).toThrow(/^rays:/);
  });
});
