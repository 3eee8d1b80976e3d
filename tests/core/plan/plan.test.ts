import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  backFocalDistance,
  focalError,
  focalLength,
  focusThickness,
  observationAngle,
} from '../../../src/core/lens/focus.ts';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import {
  comfortRange,
  COMFORT_RAD,
  disparity,
  EYES_APART_MM,
  gainThatFits,
  perceivedDepth,
  qualityAt,
  rangeWithin,
  resolutionLeft,
  stepAt,
  viewsBetweenEyes,
} from '../../../src/core/plan/depth.ts';
import { tracedGap } from '../../../src/core/lens/traced.ts';
import { crosstalk, fit, framesToldApart, ownShare } from '../../../src/core/plan/fit.ts';
import { slideFromStretch, tolerance, widestFor } from '../../../src/core/plan/tolerance.ts';
import { degToRad, dpi, lpi, lpiToMm, mm, radToDeg, deg } from '../../../src/core/units/units.ts';

const published: LensSheet = {
  pitchMm: mm(0.33665),
  thicknessMm: mm(0.457),
  index: 1.557,
  radiusMm: mm(0.1905),
};
const sixty: LensSheet = { pitchMm: lpiToMm(lpi(60)), thicknessMm: mm(0.84), index: 1.5685 };
const printing = { acrossDpi: dpi(720), columns: 'blended' as const };
const reading = mm(400);

describe('focus', () => {
  // Encyclopaedia article "Lenticular printing / Lenticular optics", worked example.
  test('the published lens: observation angle, focal length, back focal distance', () => {
    expect(radToDeg(observationAngle(published, 1.003)!)).toBeCloseTo(64.6, 1);
    expect(radToDeg(observationAngle(published)!)).toBeCloseTo(64.42, 2);
    expect(focalLength(published)).toBeCloseTo(0.342, 3);
    expect(backFocalDistance(published)).toBeCloseTo(0.048, 3);
  });
  test('a sheet as thick as its focus has no focal error, and an unknown radius is in focus', () => {
    const focused = { ...published, thicknessMm: focusThickness(published) };
    expect(focalError(focused)).toBeCloseTo(0, 12);
    expect(focalError(sixty)).toBe(0);
    expect(focalError({ ...focused, thicknessMm: mm(focused.thicknessMm + 0.1) })).toBeCloseTo(0.1);
  });
});

describe('fit', () => {
  test('60 LPI over 720 dots has room for 12 frames, over 600 for 10', () => {
    // Common practice, no source.
    expect(fit(sixty, dpi(720), reading).wholeFrames).toBe(12);
    expect(fit(sixty, dpi(600), reading).wholeFrames).toBe(10);
  });
  test('seen from far away, dots under a rib are dpi / LPI in whole-number arithmetic', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 2880 }),
        fc.integer({ min: 15, max: 200 }),
        (density, count) => {
          const lens = { ...sixty, pitchMm: lpiToMm(lpi(count)), thicknessMm: mm(0.001) };
          const { dots, wholeFrames, leftOver } = fit(lens, dpi(density), mm(1e9));
          const quotient = Math.trunc(density / count);
          const rest = density - quotient * count;
          expect(dots).toBeCloseTo(quotient + rest / count, 6);
          // Just under a whole dot counts as whole: two parts in a thousand are stretch.
          const next = (quotient + 1) * count - density <= 0.002 * density;
          expect(wholeFrames).toBe(next ? quotient + 1 : quotient);
          expect(leftOver).toBeCloseTo(next ? 0 : rest / count, 6);
        },
      ),
    );
  });
  test('rows of the crosstalk matrix sum to one, and the wanted view leads in the middle', () => {
    const matrix = crosstalk(sixty, printing, 6, reading);
    for (const row of matrix) {
      expect(row).toHaveLength(6);
      expect(row.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
    }
    expect(Math.max(...(matrix[3] ?? []))).toBe(matrix[3]?.[3]);
  });
  test('the matrix is mirrored when the eye is: view i loses to j as N−1−i does to N−1−j', () => {
    const n = 7;
    const matrix = crosstalk(sixty, printing, n, reading);
    for (let i = 0; i < n; i += 1)
      for (let j = 0; j < n; j += 1)
        expect(matrix[i]?.[j]).toBeCloseTo(matrix[n - 1 - i]?.[n - 1 - j] ?? NaN, 6);
  });
  test('finer dots never lower the number of frames told apart, nor do they pass the ceiling', () => {
    const told = [300, 600, 1200, 2400].map((density) =>
      framesToldApart(sixty, { ...printing, acrossDpi: dpi(density) }, reading),
    );
    expect(told).toEqual([...told].sort((a, b) => a - b));
    for (const [i, density] of [300, 600, 1200, 2400].entries())
      expect(told[i]).toBeLessThanOrEqual(2 * fit(sixty, dpi(density), reading).dots);
  });
  test('told apart means what it says: one more frame and the wanted view is outweighed', () => {
    const told = framesToldApart(sixty, printing, reading);
    expect(ownShare(crosstalk(sixty, printing, told, reading))).toBeGreaterThanOrEqual(0.5);
    expect(ownShare(crosstalk(sixty, printing, told + 1, reading))).toBeLessThan(0.5);
  });
});

describe('tolerance (relation 7)', () => {
  test('8 in wide, a quarter zone: ±0.03125 LPI', () => {
    const t = tolerance(0.25, sixty.pitchMm, mm(203.2), mm(254));
    expect(t.pitchLpi).toBeCloseTo(0.25 / 8, 12);
    expect(t.pitchShare).toBeCloseTo(0.25 / 8 / 60, 12);
    expect(Math.tan(t.skewRad) * 254).toBeCloseTo(t.skewMm, 12);
    expect(t.skewMm).toBeCloseTo(0.25 * sixty.pitchMm, 12);
  });
  test('it is the beat of the two gratings: p1 p2 / |p1 − p2| (Amidror 2000; 12 and 11 give 132)', () => {
    expect((12 * 11) / Math.abs(12 - 11)).toBe(132);
    const across = mm(203.2);
    const t = tolerance(1, sixty.pitchMm, across, mm(254));
    const off = 25.4 / (60 + t.pitchLpi);
    // A budget of one zone is a beat exactly as long as the print is wide.
    expect((sixty.pitchMm * off) / Math.abs(sixty.pitchMm - off)).toBeCloseTo(across, 6);
  });
  test('the widest print is the one whose tolerance is the uncertainty', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1, noNaN: true }), (uncertainty) => {
        const wide = widestFor(0.25, lpi(uncertainty));
        const back = tolerance(0.25, sixty.pitchMm, wide, mm(100)).pitchLpi;
        expect(back).toBeCloseTo(uncertainty, 9);
      }),
    );
  });
  test('a part in a thousand over 8 in at 60 LPI slides the picture 0.48 zones', () => {
    expect(slideFromStretch(0.001, sixty.pitchMm, mm(203.2))).toBeCloseTo(0.48, 9);
  });
  test('names the field that cannot be', () => {
    expect(() => tolerance(0.25, mm(NaN), mm(1), mm(1))).toThrow(/pitchMm/);
    expect(() => tolerance(0, mm(1), mm(1), mm(1))).toThrow(/budget/);
    expect(() => tolerance(1, mm(1), mm(-1), mm(1))).toThrow(/acrossMm/);
  });
});

describe('depth', () => {
  const setting = { lens: sixty, viewSlots: 12, distanceMm: reading, gain: 0.04 };

  test('sharp depth of the published lens: |z| = p / tan(step) = 3.572 mm', () => {
    // Display-bandwidth result of Zwicker et al. (2006) for a far eye, 64.6° over 12 views. Written
    // with angles there; our window takes equal steps of tan instead, so the published figure is
    // checked by its own formula and ours against the same far-eye limit, N g' (relation 6). By the
    // trace this half-round rib turns an eighth less than t / n says.
    const step = degToRad(deg(64.6 / 12));
    expect(0.33665 / Math.tan(step)).toBeCloseTo(3.572, 3);
    const far = { lens: published, viewSlots: 12, distanceMm: mm(1e7), gain: 1 };
    const ours = rangeWithin(far, 1).behindMm;
    expect(ours).toBeCloseTo(12 * tracedGap(published), 3);
    expect(ours / ((12 * 0.457) / 1.557)).toBeCloseTo(0.87, 2);
  });
  test('at the ends of the sharp range a point moves one lenticule from view to view', () => {
    const { frontMm, behindMm } = rangeWithin(setting, 1);
    expect(stepAt(setting, behindMm)).toBeCloseTo(sixty.pitchMm, 9);
    expect(stepAt(setting, frontMm)).toBeCloseTo(-sixty.pitchMm, 9);
    expect(qualityAt(setting, behindMm)).toBe('sharp');
    expect(qualityAt(setting, mm(behindMm * 1.01))).toBe('soft');
    expect(resolutionLeft(setting, frontMm)).toBeCloseTo(1, 9);
    expect(resolutionLeft({ ...setting, gain: 0.08 }, frontMm)).toBeCloseTo(0.5, 9);
  });
  test('behind: z > 0 moves with the camera, z < 0 against it (the signs of docs/optics.md)', () => {
    expect(stepAt(setting, mm(10))).toBeGreaterThan(0);
    expect(stepAt(setting, mm(-10))).toBeLessThan(0);
  });
  test('the gain that fits puts the farthest thing exactly at the limit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -300, max: -1, noNaN: true }),
        fc.double({ min: 1, max: 5000, noNaN: true }),
        (front, behind) => {
          const range = { frontMm: mm(front), behindMm: mm(behind) };
          const gain = gainThatFits(setting, range);
          const steps = [front, behind].map((z) => Math.abs(stepAt({ ...setting, gain }, mm(z))));
          expect(Math.max(...steps)).toBeCloseTo(sixty.pitchMm, 9);
        },
      ),
    );
  });
  test('comfort: 63 mm, 500 mm, one degree gives 80.7 mm behind and 61.1 mm in front', () => {
    // Limit: Lambooij et al., JIST 53(3) (2009); distances computed in docs/optics.md.
    const { frontMm, behindMm } = comfortRange(COMFORT_RAD, mm(500), EYES_APART_MM);
    expect(behindMm).toBeCloseTo(80.7, 1);
    expect(frontMm).toBeCloseTo(-61.1, 1);
    expect(radToDeg(disparity(behindMm, mm(500), EYES_APART_MM))).toBeCloseTo(1, 9);
    expect(radToDeg(disparity(frontMm, mm(500), EYES_APART_MM))).toBeCloseTo(-1, 9);
  });
  test('small angles: disparity is I / D − I / (D + z) (relation 6)', () => {
    const small = disparity(mm(5), mm(2000), EYES_APART_MM);
    expect(small / (63 / 2000 - 63 / 2005)).toBeCloseTo(1, 3);
  });
  test('a gain of one changes nothing, a small one flattens towards the print', () => {
    expect(perceivedDepth(mm(80), reading, 1)).toBeCloseTo(80, 9);
    expect(perceivedDepth(mm(-80), reading, 1)).toBeCloseTo(-80, 9);
    expect(perceivedDepth(mm(80), reading, 0.1)).toBeLessThan(8);
  });
  test('views between the eyes are the cameras between them: I / Δ at a gain of one', () => {
    const cameraStep = (400 * sixty.pitchMm) / (12 * tracedGap(sixty));
    expect(viewsBetweenEyes(sixty, 12, reading, EYES_APART_MM)).toBeCloseTo(63 / cameraStep, 9);
  });
});
