/** Reading a strip, by band and by count, and the scale before it; numbers by hand from the relations. */
import { describe, expect, it } from 'vitest';
import { studentT95 } from '../../../src/core/numeric/student.ts';
import { bandLook, beatPeriodMm, fringesAcross } from '../../../src/core/pitch/fringes.ts';
import { readBand } from '../../../src/core/pitch/read-band.ts';
import { bandsToCount, readFringes } from '../../../src/core/pitch/read-fringes.ts';
import { checkScale } from '../../../src/core/pitch/scale.ts';

describe('fringes', () => {
  it('stand p1 p2 / |p1 − p2| apart: 12 and 11 give 132', () => {
    // Published beat formula, Amidror (2000) via Gabrielyan; the numbers are docs/optics.md's.
    expect(beatPeriodMm(12, 11)).toBe(132);
    expect(beatPeriodMm(11, 12)).toBe(132);
    expect(beatPeriodMm(5, 5)).toBe(Infinity);
    // The same in relation 9: fringes across W are W over the beat period.
    const [a, b] = [25.4 / 59.7, 25.4 / 60.2];
    expect(203.2 / beatPeriodMm(a, b)).toBeCloseTo(fringesAcross(59.7, 60.2, 8), 9);
  });

  it('show in the drawn band as many times as relation 9 says', () => {
    const look = bandLook(60.5, 60, 8, { spot: 0, dot: 0 }, 0, 8000);
    let entries = 0;
    for (let i = 1; i < look.length; i += 1)
      if (look[i]! < 0.5 && look[i - 1]! >= 0.5) entries += 1;
    expect(entries).toBe(4); // 0.5 LPI × 8 in, the two at the edges cut: 3 whole, 2 halves, 4 entered.
  });
});

describe('the best band', () => {
  const bands = [59.88, 59.9, 59.92, 59.94, 59.96];

  it('is its own pitch, or halfway between two', () => {
    expect(readBand(bands, 4, 8).viewingLpi).toBe(59.92);
    expect(readBand(bands, 3, 8).viewingLpi).toBeCloseTo(59.91, 12);
    expect(readBand(bands, 0, 8).atEnd).toBe(true);
    expect(readBand(bands, 4, 8).atEnd).toBe(false);
    expect(() => readBand(bands, 9, 8)).toThrow(/place/);
  });

  it('is as sure as a quarter zone over the width when the steps are a quarter zone', () => {
    // 2 √(τ²/6 + τ²/12) / W = τ / W; τ = 0.25, W = 8 in (relation 7).
    const quarter = [-2, -1, 0, 1, 2].map((i) => 60 + (i * 0.25) / 8);
    expect(readBand(quarter, 4, 8).plusMinusLpi).toBeCloseTo(0.25 / 8, 12);
    expect(readBand(quarter, 0, 8).plusMinusLpi).toBeGreaterThan(0.25 / 8);
    expect(readBand(quarter, 4, 16).plusMinusLpi).toBeLessThan(0.25 / 8);
  });
});

describe('counted fringes', () => {
  const counted = (truth: number, bands: readonly number[], width: number) =>
    bands.map((bandLpi) => ({ bandLpi, fringes: Math.abs(bandLpi - truth) * width }));

  it.each([
    ['inside', 60.03, true],
    ['below', 58.9, false],
    ['above', 60.9, false],
  ])('find a pitch %s the printed range', (_, truth, inside) => {
    const read = readFringes(counted(truth, [59.6, 59.8, 60, 60.2, 60.4], 8), 8);
    if (!read.ok) throw new Error(read.why);
    expect(read.viewingLpi).toBeCloseTo(truth, 9);
    expect(read.inside).toBe(inside);
    expect(read.residual).toBeCloseTo(0, 9);
  });

  it('are as sure as one count over the root of their number, and as few counts tell of their error', () => {
    const two = readFringes(counted(60.9, [59.6, 60.4], 8), 8);
    const five = readFringes(counted(60.9, [59.6, 59.8, 60, 60.2, 60.4], 8), 8);
    if (!two.ok || !five.ok) throw new Error('both should read');
    // Student's 95 % for 3 and 6 degrees of freedom, any table: 3.182 and 2.447.
    expect(two.plusMinusLpi / five.plusMinusLpi).toBeCloseTo((Math.sqrt(2.5) * 3.182) / 2.447, 1);
  });

  it('say so when they fit two pitches, none, or are too few', () => {
    // Equal counts in one band on either side and the sign unknown: below both or above both, 2 : 2.
    expect(readFringes([{ bandLpi: 60, fringes: 2 }], 8)).toMatchObject({ why: 'too-few' });
    const near = [
      { bandLpi: 60, fringes: 2 },
      { bandLpi: 60.02, fringes: 2 },
    ];
    expect(readFringes(near, 8)).toMatchObject({ why: 'two-ways' });
    const wild = [
      { bandLpi: 59, fringes: 1 },
      { bandLpi: 60, fringes: 30 },
      { bandLpi: 61, fringes: 2 },
    ];
    expect(readFringes(wild, 8)).toMatchObject({ ok: false, why: 'no-fit' });
  });
});

describe('how many bands to count', () => {
  it.each([
    [8, 0.25 / 8],
    [7.07, 0.25 / 8],
    [4, 0.25 / 4],
    [7.07, 0.25 / 12],
  ])(
    'is enough, and not more than six or one too many, over %d in for ±%d LPI',
    (width, allowed) => {
      const read = (bands: number) => {
        const counts = Array.from({ length: bands }, (_, i) => ({
          bandLpi: 61 + i / 10,
          fringes: (1 + i / 10) * width,
        }));
        const reading = readFringes(counts, width);
        expect(reading.ok).toBe(true);
        return reading.ok ? reading.plusMinusLpi : Infinity;
      };
      const bands = bandsToCount(width, allowed);
      // As much is left to paper and printer: errors add in squares.
      const share = Math.SQRT1_2;
      expect(read(bands)).toBeLessThanOrEqual(share * allowed);
      if (bands > 6) expect(read(bands - 1)).toBeGreaterThan(0.99 * share * allowed);
    },
  );
});

describe('Student’s 95 %', () => {
  // Any table of the distribution.
  it.each([
    [3, 3.182],
    [4, 2.776],
    [6, 2.447],
    [10, 2.228],
    [30, 2.042],
    [1e6, 1.96],
  ])('with %d degrees of freedom is %d', (free, quantile) => {
    expect(Math.abs(studentT95(free) / quantile - 1)).toBeLessThan(0.01);
  });
});

describe('the scale', () => {
  it('passes what a ruler cannot tell, names a stretch, and catches a page fitted to its margins', () => {
    expect(checkScale(100, 100.25).right).toBe(true);
    expect(checkScale(100, 100.3)).toMatchObject({ right: false, scaled: false });
    expect(checkScale(50, 50.25).right).toBe(true);
    const fitted = checkScale(100, 97);
    expect(fitted).toMatchObject({ right: false, scaled: true, beyond: false });
    expect(fitted.factor).toBeCloseTo(0.97, 12);
    expect(checkScale(100, 3.94).beyond).toBe(true);
    expect(() => checkScale(100, 0)).toThrow(/measuredMm/);
  });
});
