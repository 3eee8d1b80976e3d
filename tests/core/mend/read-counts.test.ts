/** What is read from bands, jumps and bars that a person counted. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Counts } from '../../../src/core/mend/counts.ts';
import { rankCauses } from '../../../src/core/mend/rank.ts';
import { bandSigns, readCounts } from '../../../src/core/mend/read-counts.ts';
import { tracedGap } from '../../../src/core/lens/traced.ts';
import { gapAheadMm, lying, setup } from './setup.ts';

describe('counts', () => {
  const read = (counts: Counts) => readCounts(setup, counts);

  test('signs from run and lean, unknown ones left open', () => {
    expect(bandSigns({ run: 'with', lean: 'forth' })).toEqual({ across: 1, along: 1 });
    expect(bandSigns({ run: 'back', lean: 'forth' })).toEqual({ across: -1, along: -1 });
    expect(bandSigns({ run: 'with' })).toEqual({ across: 1, along: undefined });
    expect(bandSigns({ lean: 'back' })).toEqual({ across: undefined, along: undefined });
    expect(read({ bandsAcross: 2, bandsAlong: 1 }).open).toEqual(['run', 'lean']);
    expect(read({ bandsAcross: 2, run: 'with' }).open).toEqual([]);
  });

  test('without a run two pitches are offered, one either side', () => {
    const { pitch } = read({ bandsAcross: 2 });
    const woven = 25.4 / setup.sheet.viewingPitchMm;
    expect(pitch!.viewingLpi.value + pitch!.orLpi!).toBeCloseTo(2 * woven, 6);
    expect(read({ bandsAcross: 2, run: 'with' }).pitch!.orLpi).toBeUndefined();
    // Two bands over 8 inches, the print too fine: a quarter of a line an inch coarser.
    expect(read({ bandsAcross: 2, run: 'with' }).pitch!.viewingLpi.value).toBeCloseTo(
      woven - 0.25,
      2,
    );
  });

  test('counts made from elsewhere are restated for the distance woven for', () => {
    // From 800 mm a print right for 400 mm is too coarse: relation 2 gives its bands.
    const bands = ((1 / 400 - 1 / 800) * gapAheadMm * 203.2) / setup.sheet.viewingPitchMm;
    const { pitch } = read({ bandsAcross: bands, run: 'against', lookedFromMm: 800 });
    expect(pitch!.viewingLpi.value).toBeCloseTo(25.4 / setup.sheet.viewingPitchMm, 4);
  });

  test('views that the weave itself moved are in their place', () => {
    // A quarter of the zone to the right: the jump at its end, ½ a zone off, lies ¾ to the right and ¼ to the left.
    // The zone by relation 4.
    const moved = { ...setup.sheet, offsetMm: -setup.sheet.viewingPitchMm / 4 };
    const zoneMm = (400 * setup.lens.pitchMm) / tracedGap(setup.lens);
    const counts = { jumpForthMm: 0.75 * zoneMm, jumpBackMm: 0.25 * zoneMm };
    const places = [setup.sheet, moved].map(
      (sheet) => readCounts({ ...setup, sheet }, counts).offsetMm!.value / sheet.viewingPitchMm,
    );
    expect(places[0]).toBeCloseTo(-0.25, 1);
    expect(places[1]).toBeCloseTo(0, 1);
  });

  test('under lying ribs the same bands say the other turn', () => {
    const counts = { bandsAlong: 2, run: 'forth' } as const;
    expect(readCounts(lying, counts).skew!.rad.value).toBeCloseTo(
      -read(counts).skew!.rad.value,
      12,
    );
  });

  test('a bar measured too short is a scale, with the ruler’s doubt', () => {
    const { scaleAcross } = read({ barAcross: { drawnMm: 100, measuredMm: 97 } });
    expect(scaleAcross!.value).toBeCloseTo(0.97, 12);
    expect(scaleAcross!.plusMinus).toBeGreaterThan(0.002);
  });

  test.each([
    [{ bandsAcross: -1 }, 'bandsAcross'],
    [{ bandsAlong: NaN }, 'bandsAlong'],
    [{ repeatMm: 0 }, 'repeatMm'],
    [{ lookedFromMm: -400 }, 'lookedFromMm'],
    [{ barAcross: { drawnMm: 100, measuredMm: 0 } }, 'barAcross.measuredMm'],
    [{ stripes: { heightMm: 0, apartMm: 3 } }, 'stripes.heightMm'],
  ])('%j is refused by name', (counts, field) => {
    expect(() => read(counts)).toThrow(field);
  });
});

describe('whatever is counted', () => {
  const lengths = fc.double({ min: 0, max: 3000, noNaN: true });
  const maybe = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: undefined });
  const bar = fc.record({
    drawnMm: fc.double({ min: 1, max: 2000, noNaN: true }),
    measuredMm: fc.double({ min: 1, max: 2000, noNaN: true }),
  });
  const anyCounts = fc.record({
    bandsAcross: maybe(fc.double({ min: 0, max: 500, noNaN: true })),
    bandsAlong: maybe(fc.double({ min: 0, max: 500, noNaN: true })),
    lean: maybe(fc.constantFrom('back', 'forth', 'none')),
    run: maybe(fc.constantFrom('with', 'against', 'forth', 'back')),
    jumpForthMm: maybe(lengths),
    jumpBackMm: maybe(lengths),
    repeatMm: maybe(fc.double({ min: 0.1, max: 3000, noNaN: true })),
    jumpTakesMm: maybe(lengths),
    barAcross: maybe(bar),
    order: maybe(fc.constantFrom('right', 'backwards')),
    stripes: maybe(fc.record({ heightMm: fc.constant(9), apartMm: lengths })),
  });
  const finite = (value: unknown): boolean =>
    typeof value === 'number'
      ? Number.isFinite(value)
      : typeof value !== 'object' || value === null || Object.values(value).every(finite);

  test('every number read is a number, every confidence a share', () => {
    fc.assert(
      fc.property(anyCounts, (given) => {
        const counts = Object.fromEntries(
          Object.entries(given).filter(([, value]) => value !== undefined),
        ) as Counts;
        const reading = readCounts(setup, counts);
        expect(finite(reading), JSON.stringify(reading)).toBe(true);
        for (const { confidence, zones = 0 } of rankCauses(setup, { chosen: [], counts })) {
          expect(confidence).toBeGreaterThanOrEqual(0);
          expect(confidence).toBeLessThanOrEqual(1);
          expect(Number.isFinite(zones)).toBe(true);
        }
      }),
      { numRuns: 150, seed: 8 },
    );
  });

  test('more bands than the print has ribs for are left out and named', () => {
    // 480 ribs across: a band would be under two ribs wide.
    const reading = readCounts(setup, { bandsAcross: 300, run: 'with' });
    expect(reading.beyond).toEqual(['bandsAcross']);
    expect(reading.pitch).toBeUndefined();
  });
});
