/** What a fault does to the pattern: against the published moiré formulas and the relations of docs/optics.md. */
import { describe, expect, test } from 'vitest';
import type { Faults } from '../../../src/core/mend/fault.ts';
import {
  lensPitchMm,
  noFaults,
  phaseTerms,
  placeAt,
  printAcrossMm,
  printAlongMm,
} from '../../../src/core/mend/fault.ts';
import { faulty, gapAheadMm, gapMm, lying, setup } from './setup.ts';

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
    // Cycles over the print; relation 9 counts them over the lens's ribs: (1 + g₀ / D) apart.
    expect(across).toBeCloseTo((printedLpi - rightLpi) * 8 * (1 + gapAheadMm / 400), 6);
  });
});

describe('the place seen', () => {
  test('a print as planned shows the middle view everywhere, straight ahead', () => {
    const terms = phaseTerms(setup, noFaults);
    for (const x of [-0.5, 0, 0.3]) expect(placeAt(terms, x, 0.4, 0)).toBeCloseTo(0.5, 12);
    // Relation 4: one zone further, one rib further.
    const zone = (setup.sheet.viewingPitchMm * 400) / gapMm;
    expect(placeAt(terms, 0, 0, zone)).toBeCloseTo(-0.5, 2);
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
