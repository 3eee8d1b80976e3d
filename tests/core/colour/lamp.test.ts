/** The curve of a print before a lamp: monotone, neutral, the identity at 1, and a black body's white. */
import { describe, expect, it } from 'vitest';
import { blackBody, gainsOf, lampTables, whiteOf } from '../../../src/core/colour/lamp.ts';
import { code8OfLinear, srgbToLinear } from '../../../src/core/colour/srgb.ts';

describe('the tables', () => {
  it('are the plain ones at density 1 and warmth 0', () => {
    const plain = code8OfLinear();
    for (const table of lampTables({ density: 1, warmth: 0 }))
      expect(Buffer.compare(table, plain)).toBe(0);
  });

  it.each([0.7, 1, 1.6, 2.2])('never fall, and keep black and white, at density %d', (density) => {
    for (const warmth of [-2, 0, 2])
      for (const [c, table] of lampTables({ density, warmth }).entries()) {
        expect(table[0]).toBe(0);
        if (gainsOf(warmth)[c] === 1) expect(table[65535]).toBe(255);
        expect(table.every((code, i) => i === 0 || code >= (table[i - 1] as number))).toBe(true);
      }
  });

  it('keep grey grey at warmth 0', () => {
    const [red, green, blue] = lampTables({ density: 1.8, warmth: 0 });
    expect(Buffer.compare(green, red)).toBe(0);
    expect(Buffer.compare(blue, red)).toBe(0);
  });

  it('double the density at 2: a light of 0.5 becomes one of 0.25', () => {
    // sRGB code of 0.25 by IEC 61966-2-1: 1.055 × 0.25^(1/2.4) − 0.055 = 0.53710.
    expect(lampTables({ density: 2, warmth: 0 })[0][32768]).toBe(137);
    // The step from the code's light back to density, −log10: twice 0.301.
    expect(-Math.log10(srgbToLinear(137 / 255))).toBeCloseTo(2 * Math.log10(2), 2);
  });
});

describe('warmth', () => {
  it.each([
    // Planck's law over the CIE 1931 observer (Wyszecki and Stiles, Color Science, table 1(3.11); memory).
    [5000, 0.3451, 0.3516],
    [6500, 0.3135, 0.3237],
    [10000, 0.2807, 0.2884],
  ])('follows the black body: %d K lies at (%d, %d)', (kelvin, x, y) => {
    expect(Math.abs(blackBody(kelvin).x - x)).toBeLessThan(7e-4);
    expect(Math.abs(blackBody(kelvin).y - y)).toBeLessThan(7e-4);
  });

  it('takes from blue when warmer and from red when cooler, and from nothing at 0', () => {
    expect(gainsOf(0)).toEqual([1, 1, 1]);
    const [warmRed, warmGreen, warmBlue] = gainsOf(2);
    expect(warmRed).toBe(1);
    expect(warmGreen).toBeLessThan(1);
    expect(warmBlue).toBeLessThan(warmGreen);
    const [coolRed, coolGreen, coolBlue] = gainsOf(-2);
    expect(coolBlue).toBe(1);
    expect(coolGreen).toBeLessThan(1);
    expect(coolRed).toBeLessThan(coolGreen);
  });

  it('moves by 40 mired a step', () => {
    expect(1e6 / whiteOf(1) - 1e6 / whiteOf(0)).toBeCloseTo(40, 9);
    expect(() => blackBody(3000)).toThrow(/kelvin: expected 4000 to 25000, received 3000/);
  });
});
