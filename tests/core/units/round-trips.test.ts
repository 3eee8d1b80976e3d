/** Units there and back again. 25.4 mm to the inch: exact since 1959; 180° is π. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { densityMeasure, plainMeasure } from '../../../src/core/units/measure.ts';
import {
  deg,
  degToRad,
  dotPitchMm,
  dpi,
  inchToMm,
  lpi,
  lpiToMm,
  mm,
  mmToInch,
  mmToLpi,
  radToDeg,
} from '../../../src/core/units/units.ts';

const sizes = fc.double({ min: 1e-3, max: 1e5, noNaN: true });
const near = (value: number, expected: number) => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(1e-12);
};

describe('round trips', () => {
  it.each<[string, (value: number) => number]>([
    ['mm → in → mm', (value) => inchToMm(mmToInch(mm(value)))],
    ['mm → LPI → mm', (value) => lpiToMm(mmToLpi(mm(value)))],
    ['LPI → mm → LPI', (value) => mmToLpi(lpiToMm(lpi(value)))],
    ['° → rad → °', (value) => radToDeg(degToRad(deg(value)))],
    ['dpi → dot → dpi', (value) => 25.4 / dotPitchMm(dpi(value))],
  ])('%s', (_, there) => {
    fc.assert(fc.property(sizes, (value) => near(there(value), value)));
  });

  it.each([
    ['density', densityMeasure, 0.00501],
    ['plain number', plainMeasure(0.001, 4), 0.0000501],
  ] as const)('%s: what is shown can be typed back', (_, measure, within) => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e4, noNaN: true }), (value) => {
        const read = measure.read(measure.format(value));
        expect(read.ok && Math.abs(read.value - value) <= within).toBe(true);
      }),
    );
  });
});

it('the anchors are those of the standards', () => {
  expect(inchToMm(mmToInch(mm(203.2)))).toBeCloseTo(203.2, 12);
  expect(mmToInch(mm(203.2))).toBeCloseTo(8, 12);
  expect(degToRad(deg(180))).toBe(Math.PI);
});
