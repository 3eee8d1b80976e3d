/**
 * Lenses over printers against exact whole-number arithmetic, and the advice on frames against what
 * is published or common practice (each named beside its check).
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mostGuardSlots } from '../../../src/core/frames/flip-ahead.ts';
import type { AdviceFacts } from '../../../src/core/plan/frame-advice.ts';
import { frameAdvice } from '../../../src/core/plan/frame-advice.ts';
import { crosstalk, fit } from '../../../src/core/plan/fit.ts';
import {
  LENS_COUNTS,
  pair,
  PRINTER_GRIDS,
  sameCount,
  suits,
  withOwn,
} from '../../../src/core/plan/pairing.ts';
import { dpi, lpi, lpiToMm, mm } from '../../../src/core/units/units.ts';

/** The table's figures as fractions of whole numbers: no binary dust, every limit met exactly. */
const exact = (count: bigint, density: bigint) => {
  const whole = density / count;
  // Short of the next whole dot by two thousandths of all dots, and by less than half a dot.
  const missing = (whole + 1n) * count - density;
  const isNext = missing * 1000n <= density * 2n && missing * 2n < count;
  const frames = isNext ? whole + 1n : whole;
  const rest = isNext ? 0n : density - whole * count;
  const grade =
    frames < 2n
      ? 'none'
      : rest * 1000n <= density * 2n
        ? 'whole'
        : rest * 20n <= density
          ? 'some'
          : 'much';
  return { frames: Number(frames), rest, grade };
};

const agree = (count: number, density: number) => {
  const { frames, rest, grade } = exact(BigInt(count), BigInt(density));
  const found = pair(count, density);
  expect(found.wholeFrames, `${count} over ${density}`).toBe(frames);
  expect(found.grade, `${count} over ${density}`).toBe(grade);
  // Multiplied out they are whole numbers again.
  expect(found.dots * count).toBeCloseTo(density, 8);
  expect(found.leftOver * count).toBeCloseTo(Number(rest), 8);
  expect(found.lost * density).toBeCloseTo(Number(rest), 8);
};

describe('the table of pairs', () => {
  test('is the exact division, for every pair that is listed', () => {
    for (const count of LENS_COUNTS) for (const density of PRINTER_GRIDS) agree(count, density);
  });

  test('and for any whole counts that may be typed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 6, max: 508 }), fc.integer({ min: 50, max: 10000 }), agree),
      { numRuns: 2000 },
    );
  });

  test('meets its limits from both sides: 1 in 20 shared, 2 in 1000 over, and 2 in 1000 short', () => {
    // 40 dots over 2 whole ones of 19: 2 of 40 left over, exactly a twentieth.
    expect(pair(19, 40).grade).toBe('some');
    expect(pair(1900, 4001).grade).toBe('much');
    expect(pair(499, 1000)).toMatchObject({ wholeFrames: 2, grade: 'whole' });
    expect(pair(500, 1002)).toMatchObject({ wholeFrames: 2, grade: 'whole' });
    expect(pair(500, 1003)).toMatchObject({ wholeFrames: 2, grade: 'some' });
    expect(pair(501, 1000)).toMatchObject({ wholeFrames: 2, leftOver: 0 });
    expect(pair(502, 1000)).toMatchObject({ wholeFrames: 1, grade: 'none' });
  });

  test('never makes up a frame over half a dot: 500 dots hold 500', () => {
    expect(pair(10, 5000)).toMatchObject({ wholeFrames: 500, grade: 'whole' });
    fc.assert(
      fc.property(
        fc.double({ min: 5.08, max: 508, noNaN: true }),
        fc.double({ min: 50, max: 10000, noNaN: true }),
        (count, density) => {
          const { dots, wholeFrames, leftOver, lost } = pair(count, density);
          expect(wholeFrames - dots).toBeLessThanOrEqual(0.5);
          expect(leftOver).toBeGreaterThanOrEqual(0);
          expect(leftOver).toBeLessThan(1);
          expect(lost).toBeLessThanOrEqual(1);
          expect(wholeFrames + leftOver).toBeCloseTo(Math.max(dots, wholeFrames), 9);
        },
      ),
    );
  });

  test('holds what is published and practised', () => {
    // University of Kassel, SCI 2000: ribs of 500 µm over 5080 dpi hold 100 views.
    expect(pair(25.4 / 0.5, 5080)).toMatchObject({ wholeFrames: 100, grade: 'whole' });
    // Common practice, no source: 60 to the inch over 720 holds 12, over 600 it leaves 10.
    expect(pair(60, 720).wholeFrames).toBe(12);
    expect(pair(60, 600).wholeFrames).toBe(10);
  });

  test('agrees with the fit of a lens read from far away', () => {
    const far = fit(
      { pitchMm: lpiToMm(lpi(62)), thicknessMm: mm(0.8), index: 1.57 },
      dpi(720),
      mm(1e9),
    );
    const near = pair(62, 720);
    expect(far.dots).toBeCloseTo(near.dots, 6);
    expect(far.wholeFrames).toBe(near.wholeFrames);
    expect(far.leftOver).toBeCloseTo(near.leftOver, 6);
  });

  test.each([0, -60, NaN, Infinity])('refuses %s, naming which', (wrong) => {
    expect(() => pair(wrong, 720)).toThrow(RangeError);
    expect(() => pair(wrong, 720)).toThrow(`lpi: expected a count above 0, received ${wrong}`);
    expect(() => pair(60, wrong)).toThrow(`dpi: expected a count above 0, received ${wrong}`);
  });

  test('grows with finer dots and coarser ribs', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 6, max: 400 }),
        fc.integer({ min: 50, max: 5000 }),
        fc.integer({ min: 1, max: 100 }),
        (count, density, more) => {
          const { wholeFrames } = pair(count, density);
          expect(pair(count, density + more).wholeFrames).toBeGreaterThanOrEqual(wholeFrames);
          expect(pair(count + more, density).wholeFrames).toBeLessThanOrEqual(wholeFrames);
        },
      ),
    );
  });

  test('suits when little is shared and the frames wanted have a dot each', () => {
    expect(suits(pair(60, 720), 12)).toBe(true);
    expect(suits(pair(60, 720), 13)).toBe(false);
    // 720 / 75 = 9.6: six tenths of a dot in every 9.6.
    expect(suits(pair(75, 720), 6)).toBe(false);
    expect(suits(pair(200, 300), 2)).toBe(false);
  });

  test('takes own counts in, once each and in order', () => {
    expect(withOwn([10, 20], [15, 20.01, 15.001])).toEqual([10, 15, 20]);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 6, max: 508 }), { maxLength: 12 }), (own) => {
        const all = withOwn(LENS_COUNTS, own);
        expect(all).toEqual([...all].sort((a, b) => a - b));
        for (const count of [...own, ...LENS_COUNTS])
          expect(all.filter((other) => sameCount(other, count))).toHaveLength(1);
      }),
    );
  });
});

describe('the crosstalk matrix', () => {
  test.each([2, 12, 40, 200])('of %i slots: a square of shares whose rows sum to one', (count) => {
    const lens = { pitchMm: lpiToMm(lpi(40)), thicknessMm: mm(1.2), index: 1.5685 };
    const printing = { acrossDpi: dpi(1440), columns: 'crisp' as const };
    const matrix = crosstalk(lens, printing, count, mm(600));
    expect(matrix).toHaveLength(count);
    for (const row of matrix) {
      expect(row).toHaveLength(count);
      expect(Math.min(...row)).toBeGreaterThanOrEqual(0);
      expect(row.reduce((sum, share) => sum + share)).toBeCloseTo(1, 9);
    }
  });
});

describe('the advice on frames', () => {
  /** 60 LPI over 720 dots from 400 mm: zone and eyes as of the job a first visit opens with. */
  const usual: AdviceFacts = {
    fit: { dots: 12.02, wholeFrames: 12, leftOver: 0.02 },
    toldApart: 13,
    zoneMm: mm(316),
    distanceMm: mm(400),
    eyesApartMm: mm(63),
    partsEyes: true,
  };
  const advise = (change: Partial<AdviceFacts> = {}) => frameAdvice({ ...usual, ...change });

  test('is common practice for the usual pair: 12 for depth, 2 to 4 pictures a flip', () => {
    // Common practice, no source.
    const { depth, flip, animation } = advise();
    expect(depth.frames).toBe(12);
    expect(flip.frames).toBeGreaterThanOrEqual(2);
    expect(flip.frames).toBeLessThanOrEqual(4);
    expect(animation.frames).toBe(12);
  });

  test('leaves a flip the slots for the guards that it counts, so that the recipe has room for them', () => {
    const { flip } = advise();
    // Each picture its own place and a guard on either side: two guards between neighbours.
    const viewSlots = flip.slots ?? flip.frames;
    expect(
      mostGuardSlots({ pictures: flip.frames, guardSlots: 2, viewSlots }),
    ).toBeGreaterThanOrEqual(2);
    expect(flip.slots).toBeLessThanOrEqual(usual.fit.wholeFrames);
  });

  test('where two eyes would see one view, what it offers is enough, and little more is not', () => {
    // A wide cone from far: 1200 mm wide at 1.5 m, so 20 frames; there is room for 12.
    const far = { zoneMm: mm(1200), distanceMm: mm(1500) };
    const [reason = ''] = advise(far).depth.reasons;
    expect(advise(far).depth.frames).toBe(1);
    expect(reason).not.toMatch(/further/);
    const [, nearer, cone] = /at most (\d+) mm, or .* at most about (\d+)°/.exec(reason) ?? [];
    const at = (distance: number, zoneAtOne: number) =>
      advise({ zoneMm: mm(zoneAtOne * distance), distanceMm: mm(distance) }).depth.frames;
    // The zone of one lens is in proportion to the distance (relation 4).
    expect(at(Number(nearer), 1200 / 1500)).toBe(12);
    expect(at(Number(nearer) * 1.02, 1200 / 1500)).toBe(1);
    const zoneOfCone = (degrees: number) => 2 * Math.tan((degrees * Math.PI) / 360);
    expect(at(1500, zoneOfCone(Number(cone)))).toBe(12);
    expect(at(1500, zoneOfCone(Number(cone) + 1.5))).toBe(1);
  });

  test('says why, with the figure that sets the number', () => {
    expect(advise().depth.reasons[0]).toMatch(/12\.02 dots .* 12 frames a dot/);
    expect(advise().depth.reasons.at(-1)).toMatch(/24 true ones .* a little more; crossfades/);
    // Where the lens sets the number, more views are for nothing.
    expect(advise({ toldApart: 5 }).depth.reasons.join(' ')).not.toMatch(/true ones/);
    expect(advise({ toldApart: 5 }).depth).toMatchObject({ frames: 10 });
    expect(advise({ toldApart: 5 }).depth.reasons[0]).toMatch(/tells 5 apart.*12/);
    expect(advise({ toldApart: 5 }).animation).toMatchObject({ frames: 5 });
    expect(advise({ toldApart: 5 }).animation.reasons[0]).toMatch(/tells 5 apart/);
    expect(advise({ toldApart: 5 }).flip.reasons[0]).toMatch(/Even two will ghost/);
  });

  test('says what depth cannot do: lying ribs, a zone under the eyes’ distance, too few views', () => {
    // Eye separation: mean 63 mm (Dodgson, Proc. SPIE 5291, 2004).
    expect(advise({ partsEyes: false }).depth).toMatchObject({ frames: 1 });
    expect(advise({ zoneMm: mm(60) }).depth.reasons[0]).toMatch(/60 mm wide, narrower/);
    // A zone of 900 mm: 14 frames before each view is narrower than 63 mm (900 / 63 = 14.3).
    expect(advise({ zoneMm: mm(900) }).depth).toMatchObject({ frames: 1 });
    expect(advise({ zoneMm: mm(900) }).depth.reasons[0]).toMatch(/need 15 frames.*room for 12/);
    const none = advise({ fit: { dots: 1.5, wholeFrames: 1, leftOver: 0.5 } });
    for (const use of [none.depth, none.flip, none.animation]) {
      expect(use.frames).toBe(1);
      expect(use.reasons[0]).toMatch(/no room for two/);
    }
    expect(advise({ toldApart: 1 }).animation.reasons[0]).toMatch(/cannot tell even two/);
  });

  test('never exceeds the dots, nor what an eye can use', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 1, max: 120 }),
        (wholeFrames, toldApart) => {
          const { depth, flip, animation } = advise({
            fit: { dots: wholeFrames + 0.3, wholeFrames, leftOver: 0.3 },
            toldApart,
          });
          expect(depth.frames).toBeLessThanOrEqual(Math.min(wholeFrames, 2 * toldApart));
          expect(animation.frames).toBeLessThanOrEqual(Math.min(wholeFrames, toldApart));
          expect(flip.frames).toBeLessThanOrEqual(Math.max(1, animation.frames));
          for (const { frames, reasons } of [depth, flip, animation]) {
            expect(frames).toBeGreaterThanOrEqual(1);
            expect(reasons.length).toBeGreaterThan(0);
          }
        },
      ),
    );
  });
});
