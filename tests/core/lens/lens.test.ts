import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import {
  opticalGap,
  paraxialCone,
  paraxialLanding,
  paraxialPitch,
  paraxialZone,
  ribRadius,
  viewAtPlace,
} from '../../../src/core/lens/lens.ts';
import { placeSeen } from '../../../src/core/lens/traced.ts';
import { mm, radToDeg } from '../../../src/core/units/units.ts';

const article: LensSheet = {
  pitchMm: mm(0.33665),
  thicknessMm: mm(0.457),
  index: 1.557,
  radiusMm: mm(0.1905),
};

const lenses = fc.record({
  pitchMm: fc.double({ min: 0.1, max: 2, noNaN: true }).map(mm),
  thicknessMm: fc.double({ min: 0.1, max: 5, noNaN: true }).map(mm),
  index: fc.double({ min: 1.4, max: 1.7, noNaN: true }),
});
const distances = fc.double({ min: 100, max: 10000, noNaN: true }).map(mm);
const offsets = fc.double({ min: -300, max: 300, noNaN: true }).map(mm);

describe('the lens of the encyclopaedia article', () => {
  // docs/optics.md, check values, computed there from relations 2 and 4.
  it('has the gap, the cone and the woven pitches the design computed', () => {
    expect(opticalGap(article) * 1000).toBeCloseTo(293.51, 2);
    expect(radToDeg(paraxialCone(article))).toBeCloseTo(59.667, 3);
    expect(paraxialPitch(article, mm(300)) * 1000).toBeCloseTo(336.979, 3);
    expect(paraxialPitch(article, mm(500)) * 1000).toBeCloseTo(336.848, 3);
    expect(paraxialPitch(article, mm(1000)) * 1000).toBeCloseTo(336.749, 3);
    expect(paraxialZone(article, mm(500))).toBeCloseTo((0.33665 * 500) / 0.29351, 1);
  });

  // The article: focal length r / (n − 1) = 342 µm. In air before the rib that focuses at n times as
  // far inside, so a focused sheet's gap t / n is that focal length.
  it('has focal length 342 µm, the gap of the sheet that would be in focus', () => {
    const focused = { ...article, thicknessMm: mm((1.557 * 0.1905) / 0.557) };
    expect(opticalGap(focused) * 1000).toBeCloseTo(342, 0);
    expect(
      ribRadius({ pitchMm: focused.pitchMm, thicknessMm: focused.thicknessMm, index: 1.557 }),
    ).toBeCloseTo(0.1905, 9);
  });
});

// University of Kassel, SCI 2000 paper, eq. 1–2: fan half-angle atan(dot pitch · N / 2 gap), and
// print pitch = lens pitch (1 + gap / D). 500 µm pitch, 5 µm dots, 100 views.
describe('the Kassel equations', () => {
  const kassel: LensSheet = { pitchMm: mm(0.5), thicknessMm: mm(1.2), index: 1.5 };
  it('give the cone as the fan of the views', () => {
    expect(paraxialCone(kassel) / 2).toBeCloseTo(Math.atan((0.005 * 100) / (2 * 0.8)), 12);
  });
  it('give the woven pitch', () => {
    expect(paraxialPitch(kassel, mm(700))).toBeCloseTo(0.5 * (1 + 0.8 / 700), 12);
  });
});

describe('what an eye sees', () => {
  it('is the middle of every strip for an eye before the middle: that is the woven pitch', () => {
    fc.assert(
      fc.property(lenses, distances, fc.integer({ min: -300, max: 300 }), (lens, distance, rib) => {
        const seen = paraxialLanding(lens, mm(rib * lens.pitchMm), mm(0), distance);
        expect(seen).toBeCloseTo(rib * paraxialPitch(lens, distance), 9);
      }),
    );
  });

  it('moves to the next strip when the eye moves by one zone', () => {
    fc.assert(
      fc.property(lenses, distances, offsets, (lens, distance, eye) => {
        const here = paraxialLanding(lens, mm(0), eye, distance);
        const there = paraxialLanding(
          lens,
          mm(0),
          mm(eye + paraxialZone(lens, distance)),
          distance,
        );
        expect(here - there).toBeCloseTo(lens.pitchMm, 9);
      }),
    );
  });

  // Signs that a test must pin down: eye moves right → the view moves towards the right camera.
  it('is the right camera’s view from the right, the left one’s from the left', () => {
    const viewFrom = (eyeMm: number) =>
      viewAtPlace(placeSeen(article, { ribMm: 0, eyeMm, distanceMm: mm(500) }), 12);
    expect(viewFrom(0)).toBeCloseTo(6, 12);
    expect(viewFrom(200)).toBeGreaterThan(9);
    expect(viewFrom(-200)).toBeLessThan(3);
  });
});
