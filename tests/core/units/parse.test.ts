/**
 * Typed measures. 1 in = 25.4 mm and 1 ft = 304.8 mm exactly: international yard and pound agreement,
 * 1959. SI prefixes: BIPM, The International System of Units.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLength, formatPitch, trimmed } from '../../../src/core/units/format.ts';
import { lengthMeasure, pitchMeasure, plainMeasure } from '../../../src/core/units/measure.ts';
import type { Reading } from '../../../src/core/units/parse.ts';
import { readDensity, readLength, readNumber, readPitch } from '../../../src/core/units/parse.ts';
import { mm } from '../../../src/core/units/units.ts';

const valueOf = (reading: Reading<number>): number => {
  if (!reading.ok) throw new Error(reading.message);
  return reading.value;
};
const refusal = (reading: Reading<number>): string => {
  if (reading.ok) throw new Error(`was read as ${reading.value} ${reading.unit}`);
  return reading.message;
};

describe('lengths', () => {
  it.each([
    ['8 in', 203.2],
    ['8in', 203.2],
    ['8 in.', 203.2],
    ['8 inches', 203.2],
    ['8"', 203.2],
    ['8″', 203.2],
    ['8”', 203.2],
    ["8''", 203.2],
    ['8 1/2 in', 215.9],
    ['203.', 203],
    ['8. in', 203.2],
    ['8-1/2"', 215.9],
    ['8½ in', 215.9],
    ['8 ½ in', 215.9],
    ['1/4 in', 6.35],
    ['203mm', 203],
    ['203 MM', 203],
    ['45 cm', 450],
    ['1.2 m', 1200],
    ['1,2 m', 1200],
    ['.42 mm', 0.42],
    ['0,423 mm', 0.423],
    ['250 µm', 0.25],
    ['250 μm', 0.25],
    ['1 ft', 304.8],
    ["1'", 304.8],
    ['2 feet', 609.6],
    [' 45\u00a0cm ', 450],
    ['-3 mm', -3],
    ['\u22123 mm', -3],
  ])('reads %s as %d mm', (text, expected) => {
    expect(valueOf(readLength(text, 'mm'))).toBeCloseTo(expected, 9);
  });

  it('takes a bare number in the shown unit, and says which unit was typed', () => {
    expect(readLength('8', 'in')).toEqual({ ok: true, value: 203.2, unit: 'in' });
    expect(readLength('8', 'mm')).toEqual({ ok: true, value: 8, unit: 'mm' });
    expect(readLength('8 in', 'mm')).toEqual({ ok: true, value: 203.2, unit: 'in' });
  });

  it.each([
    ['', /type a number/i],
    ['wide', /wide/],
    ['8 furlongs', /furlongs.*mm, cm/],
    ['8 60', /not a number/],
    ['1.200,5', /not a number/],
    ['1,200', /1200 or 1\.200/],
    ['1/0 in', /can hold/],
    ['1e999 mm', /can hold/],
    ['8 constructor', /not a length/],
    ['8 toString', /not a length/],
    ['NaN', /not a number/],
    ['Infinity mm', /not a number/],
    ['60 lpi', /not a length/],
  ])('refuses %j and says why', (text, why) => {
    expect(refusal(readLength(text, 'mm'))).toMatch(why);
  });

  it('comes back as shown, to the micrometre, in either unit', () => {
    const length = fc.double({ min: 0.01, max: 20000, noNaN: true });
    fc.assert(
      fc.property(length, fc.constantFrom('mm', 'in'), (value, unit) => {
        const back = valueOf(readLength(formatLength(mm(value), unit), unit));
        // Half of the last shown decimal: 0.001 mm, or 0.0001 in = 0.00254 mm.
        expect(Math.abs(back - value)).toBeLessThanOrEqual(unit === 'mm' ? 0.000501 : 0.001271);
      }),
    );
  });

  it('never throws, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        for (const reading of [
          readLength(text, 'mm'),
          readPitch(text, 'lpi'),
          readDensity(text),
          readNumber(text),
        ])
          if (reading.ok) expect(Number.isFinite(reading.value)).toBe(true);
          else expect(reading.message).not.toBe('');
      }),
    );
  });
});

describe('lens pitch', () => {
  it.each([
    ['60 lpi', 25.4 / 60, 'lpi'],
    ['60', 25.4 / 60, 'lpi'],
    ['60 LPI', 25.4 / 60, 'lpi'],
    ['60 per inch', 25.4 / 60, 'lpi'],
    ['0.42 mm', 0.42, 'mm'],
    ['0,42 mm', 0.42, 'mm'],
    ['420 µm', 0.42, 'mm'],
    ['1/60 in', 25.4 / 60, 'mm'],
    // 20 to the centimetre is half a millimetre each.
    ['20 per cm', 0.5, 'lpi'],
  ])('reads %s', (text, expected, unit) => {
    const reading = readPitch(text, 'lpi');
    expect(valueOf(reading)).toBeCloseTo(expected, 12);
    expect(reading.ok && reading.unit).toBe(unit);
  });

  it('takes a bare number as millimetres where millimetres are shown', () => {
    expect(valueOf(readPitch('0.5', 'mm'))).toBe(0.5);
  });

  it.each(['0 lpi', '-60 lpi', '60 dpi', 'sixty'])('refuses %j', (text) => {
    expect(refusal(readPitch(text, 'lpi'))).not.toBe('');
  });

  it('comes back as shown, to a thousandth of a lenticule to the inch', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 200, noNaN: true }), (count) => {
        const shown = formatPitch(mm(25.4 / count), 'lpi');
        expect(Math.abs(25.4 / valueOf(readPitch(shown, 'lpi')) - count)).toBeLessThan(0.000501);
      }),
    );
  });
});

describe('densities and plain numbers', () => {
  it.each([
    ['720', 720],
    ['720 dpi', 720],
    ['720 dots per inch', 720],
    // A dot each 25 µm is 40 to the millimetre: 40 × 25.4.
    ['40 dots/mm', 1016],
    ['100 dots/cm', 254],
  ])('reads %s as %d to the inch', (text, expected) => {
    expect(valueOf(readDensity(text))).toBeCloseTo(expected, 9);
  });

  it('refuses a unit that is no density, and any unit on a plain number', () => {
    expect(refusal(readDensity('720 mm'))).toMatch(/dpi/);
    expect(refusal(readNumber('1.5 mm'))).toMatch(/without "mm"/);
  });
});

describe('steps and text', () => {
  it('steps to the next round value of the shown unit', () => {
    expect(lengthMeasure('mm').step(203.2, 1, false)).toBe(204);
    expect(lengthMeasure('mm').step(203.2, -1, false)).toBe(203);
    expect(lengthMeasure('in').step(203.2, 1, false)).toBeCloseTo(8.125 * 25.4, 9);
    expect(25.4 / pitchMeasure('lpi').step(25.4 / 60, 1, false)).toBeCloseTo(60.1, 9);
    expect(plainMeasure(1, 0).step(12, -1, true)).toBe(10);
  });

  it('leaves off trailing zeros and the sign of nothing', () => {
    expect(trimmed(60, 3)).toBe('60');
    expect(trimmed(1200, 0)).toBe('1200');
    expect(trimmed(-0.0001, 2)).toBe('0');
    expect(trimmed(59.92, 3)).toBe('59.92');
  });
});
