import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { opticalGap } from '../../../src/core/lens/lens.ts';
import type { Counts } from '../../../src/core/mend/counts.ts';
import type { Faults } from '../../../src/core/mend/fault.ts';
import {
  lensPitchMm,
  noFaults,
  phaseTerms,
  placeAt,
  printAcrossMm,
  printAlongMm,
} from '../../../src/core/mend/fault.ts';
import { rankCauses } from '../../../src/core/mend/rank.ts';
import { bandSigns, readCounts } from '../../../src/core/mend/read-counts.ts';
import { drawSeen, seenFrames, seenScene } from '../../../src/core/mend/seen.ts';
import { SYMPTOMS } from '../../../src/core/mend/symptoms.ts';
import { mm } from '../../../src/core/units/units.ts';

const lens = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.826), index: 1.57 };
const sheetOf = (ribs: 'upright' | 'lying') =>
  ({
    widthDots: ribs === 'upright' ? 5760 : 7200,
    heightDots: ribs === 'upright' ? 7200 : 5760,
    acrossDpi: 720,
    alongDpi: 720,
    ribs,
    viewingPitchMm: lens.pitchMm * (1 + opticalGap(lens) / 400),
    offsetMm: 0,
    viewSlots: 12,
    columns: 'blended',
  }) as const;
const setup = { lens, sheet: sheetOf('upright'), distanceMm: 400 };
const lying = { ...setup, sheet: sheetOf('lying') };
const faulty = (faults: Partial<Faults>) => ({ ...noFaults, ...faults });

/** Distance from one band to the next, of the terms' slopes over the print. */
const periodMm = (faults: Partial<Faults>): number => {
  const { across, along } = phaseTerms(setup, faulty(faults));
  return 1 / Math.hypot(across / printAcrossMm(setup.sheet), along / printAlongMm(setup.sheet));
};

describe('bands against the published moiré formulas', () => {
  test('beat of two gratings: p1 p2 / |p1 − p2|; 12 and 11 make 132', () => {
    // Amidror (2000), via Gabrielyan; docs/optics.md, check values. Unit: an eleventh of the lens pitch.
    expect(periodMm({ pitchScale: 12 / 11 }) / (lensPitchMm(setup) / 11)).toBeCloseTo(132, 6);
    expect(periodMm({ pitchScale: 11 / 12 }) / (lensPitchMm(setup) / 12)).toBeCloseTo(132, 6);
  });

  test('two equal gratings turned by α: p / (2 sin(α / 2)); 1° makes 57.2965 p', () => {
    // Encyclopaedia, moiré; docs/optics.md, check values.
    const turned = periodMm({ skewRad: Math.PI / 180 }) / lensPitchMm(setup);
    expect(turned).toBeCloseTo(57.2965, 4);
  });

  test('relation 9: |LPI_print − LPI_v| W(in) cycles across', () => {
    const { across } = phaseTerms(setup, faulty({ pitchScale: 1 / 1.002 }));
    const printedLpi = (25.4 / setup.sheet.viewingPitchMm) * 1.002;
    const rightLpi = 25.4 / setup.sheet.viewingPitchMm;
    // Cycles over the print; relation 9 counts them over the lens's ribs: (1 + g / D) apart.
    expect(across).toBeCloseTo((printedLpi - rightLpi) * 8 * (1 + opticalGap(lens) / 400), 9);
  });
});

describe('the place seen', () => {
  test('a print as planned shows the middle view everywhere, straight ahead', () => {
    const terms = phaseTerms(setup, noFaults);
    for (const x of [-0.5, 0, 0.3]) expect(placeAt(terms, x, 0.4, 0)).toBeCloseTo(0.5, 12);
    // Relation 4: one zone further, one rib further.
    const zone = (setup.sheet.viewingPitchMm * 400) / opticalGap(lens);
    expect(placeAt(terms, 0, 0, zone)).toBeCloseTo(-0.5, 9);
  });

  test('half a pitch beside its place a print jumps straight ahead', () => {
    const terms = phaseTerms(setup, faulty({ offsetMm: setup.sheet.viewingPitchMm / 2 }));
    expect(placeAt(terms, 0, 0, 0)).toBeCloseTo(0, 12);
  });

  test('a bubble slides only where it is', () => {
    const bubble = { acrossMm: 50, alongMm: 0, radiusMm: 20, gapMm: 0.3 };
    const terms = phaseTerms(setup, faulty({ bubble }));
    const shape = printAlongMm(setup.sheet) / printAcrossMm(setup.sheet);
    expect(placeAt(terms, -0.2, 0, 0, shape)).toBeCloseTo(0.5, 12);
    // Relation 1 with the air in it: x air / D beside, over the pitch.
    const more = (50 * 0.3) / 400 / setup.sheet.viewingPitchMm;
    expect(placeAt(terms, 50 / 203.2, 0, 0, shape)).toBeCloseTo(0.5 + more, 9);
  });

  test('under lying ribs a print turned clockwise carries the pattern the other way along them', () => {
    const skew = faulty({ skewRad: 0.003 });
    expect(Math.sign(phaseTerms(setup, skew).along)).toBe(1);
    expect(Math.sign(phaseTerms(lying, skew).along)).toBe(-1);
  });
});

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
    const gap = opticalGap(lens);
    const bands = ((1 / 400 - 1 / 800) * gap * 203.2) / setup.sheet.viewingPitchMm;
    const { pitch } = read({ bandsAcross: bands, run: 'against', lookedFromMm: 800 });
    expect(pitch!.viewingLpi.value).toBeCloseTo(25.4 / setup.sheet.viewingPitchMm, 6);
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

describe('ranking', () => {
  const rank = (chosen: readonly (typeof SYMPTOMS)[number]['id'][], counts: Counts = {}) =>
    rankCauses(setup, { chosen, counts });

  test('each picture of the wall, chosen alone, puts its own first cause on top and asks for its numbers', () => {
    for (const symptom of SYMPTOMS) {
      const [first] = rank([symptom.id]);
      expect(symptom.causes.slice(0, 2)).toContain(first!.cause);
      expect(first!.asks.length).toBeGreaterThan(0);
    }
  });

  test('what is not known leaves a cause where it was; a count moves it', () => {
    const before = rank(['too-coarse']).find(({ cause }) => cause === 'pitch')!;
    const counts = {
      bandsAcross: 3,
      run: 'against',
      barAcross: { drawnMm: 200, measuredMm: 200 },
    } as const;
    const after = rank(['too-coarse'], counts).find(({ cause }) => cause === 'pitch')!;
    expect(after.confidence).toBeGreaterThan(Math.max(0.95, before.confidence));
    expect(after.zones).toBeCloseTo(3, 1);
    expect(before.zones).toBeUndefined();
  });

  test('the same bands are the driver’s where the ruler says so', () => {
    // A page drawn 1 % small: 480 ribs × 1 % too many lines, 4.8 bands, with the head.
    const bands = { bandsAcross: 4.75, run: 'with' } as const;
    const small = rank([], { ...bands, barAcross: { drawnMm: 200, measuredMm: 198 } });
    const right = rank([], { ...bands, barAcross: { drawnMm: 200, measuredMm: 200 } });
    expect(small[0]!.cause).toBe('scale');
    expect(right[0]!.cause).toBe('pitch');
  });

  test('equally sure causes come in the order of what they spend', () => {
    const counts = { bandsAcross: 2, bandsAlong: 5, run: 'with', lean: 'forth' } as const;
    expect(
      rank([], counts)
        .slice(0, 2)
        .map(({ cause }) => cause),
    ).toEqual(['skew', 'pitch']);
  });
});

describe('pictures of faults', () => {
  /** Each frame a plain grey of its own, brighter to the right: what is seen tells the view. */
  const greys = Array.from({ length: 12 }, (_, v) => ({
    columns: 2,
    rows: 2,
    pixels: new Uint8Array(16).fill(20 + 20 * v),
  }));
  const frames = seenFrames(greys, setup.sheet, 40, 50);
  const seen = (faults: Partial<Faults>, eyeMm: number) => {
    const scene = seenScene(setup, faulty(faults), frames, { spot: 0, dot: 0 });
    const pixels = drawSeen(scene, eyeMm);
    return (x: number, y: number) => (pixels[(y * 40 + x) * 4]! - 20) / 20;
  };
  const zone = (setup.sheet.viewingPitchMm * 400) / opticalGap(lens);

  test('the eye goes right, the view goes towards the right camera; reversed, towards the left', () => {
    expect(seen({}, zone / 4)(20, 25)).toBeGreaterThan(seen({}, -zone / 4)(20, 25));
    const reversed = { reversed: true };
    expect(seen(reversed, zone / 4)(20, 25)).toBeLessThan(seen(reversed, -zone / 4)(20, 25));
  });

  test('too coarse: an eye straight ahead sees right cameras on the right, left ones on the left', () => {
    // u falls to the right (relation 1), and v = (1 − u) N.
    const view = seen({ pitchScale: 1.0005 }, 0);
    expect(view(38, 25)).toBeGreaterThan(view(1, 25));
    const fine = seen({ pitchScale: 0.9995 }, 0);
    expect(fine(38, 25)).toBeLessThan(fine(1, 25));
  });

  test('crossed ribs show all frames at once, wherever the eye is', () => {
    const crossed = seen({ ribsCrossed: true }, 0);
    const aside = seen({ ribsCrossed: true }, zone / 3);
    expect(Math.abs(crossed(20, 25) - aside(20, 25))).toBeLessThan(0.2);
  });

  test('a page drawn small leaves paper beside the picture', () => {
    const scene = seenScene(setup, faulty({ driverScaleAcross: 0.9 }), frames, { spot: 0, dot: 0 });
    const pixels = drawSeen(scene, 0);
    expect(pixels[(25 * 40 + 0) * 4]).toBe(255);
    expect(pixels[(25 * 40 + 20) * 4]).toBeLessThan(255);
  });

  test('lying ribs: the same picture on its side', () => {
    const sideways = seenFrames(greys, lying.sheet, 50, 40);
    const faults = faulty({ pitchScale: 1.001 });
    const upright = drawSeen(seenScene(setup, faults, frames, { spot: 0, dot: 0 }), 10);
    const turned = drawSeen(seenScene(lying, faults, sideways, { spot: 0, dot: 0 }), 10);
    for (let y = 0; y < 50; y += 7)
      for (let x = 0; x < 40; x += 3)
        expect(turned[(x * 50 + y) * 4]).toBe(upright[(y * 40 + x) * 4]);
  });

  test.each(SYMPTOMS.map((symptom) => [symptom.id, symptom] as const))(
    '%s is drawn otherwise than a right print',
    (_, symptom) => {
      const blur = { spot: 0.1, dot: 0.08 };
      const right = seenScene(setup, noFaults, frames, blur);
      const wrong = seenScene(setup, symptom.sample(setup), frames, blur);
      const differs = [-0.3, 0, 0.3].map((share) => {
        const [a, b] = [drawSeen(right, share * zone), drawSeen(wrong, share * zone)];
        return a.reduce((sum, value, i) => sum + Math.abs(value - b[i]!), 0) / a.length;
      });
      expect(Math.max(...differs)).toBeGreaterThan(0.5);
    },
  );
});

describe('what the wall says agrees with what its pictures do', () => {
  const goesAcross = (faults: Faults, of: typeof setup | typeof lying) =>
    // A band is where u is whole: as the eye goes on, it goes on where u rises across.
    Math.sign(phaseTerms(of, faults).across);
  const goesAlong = (faults: Faults, of: typeof setup | typeof lying) =>
    Math.sign(phaseTerms(of, faults).along);
  const symptom = (id: (typeof SYMPTOMS)[number]['id']) => SYMPTOMS.find((one) => one.id === id)!;

  test('against and with the head', () => {
    expect(symptom('too-coarse').look).toContain('against');
    expect(goesAcross(symptom('too-coarse').sample(setup), setup)).toBe(-1);
    expect(symptom('too-fine').look).toContain('with the head');
    expect(goesAcross(symptom('too-fine').sample(setup), setup)).toBe(1);
  });

  test('climbing and sinking; under lying ribs right and left', () => {
    for (const [id, upright, down, sideways] of [
      ['skewed-left', -1, 'climb', 'go right'],
      ['skewed-right', 1, 'sink', 'go left'],
    ] as const) {
      const { look, lookLying, sample } = symptom(id);
      expect(look).toContain(down);
      expect(goesAlong(sample(setup), setup)).toBe(upright);
      expect(lookLying).toContain(sideways);
      expect(goesAlong(sample(lying), lying)).toBe(sideways === 'go right' ? 1 : -1);
    }
  });
});
