/** How a field shows, reads and steps the quantity it holds. */
import { formatDensity, formatLength, formatPitch, trimmed } from './format.ts';
import type { LengthUnit, PitchUnit, Reading } from './parse.ts';
import { readDensity, readLength, readNumber, readPitch } from './parse.ts';
import { dpi, inch, inchToMm, lpi, lpiToMm, mm, mmToInch, mmToLpi } from './units.ts';

export interface Measure {
  /** Shown after the field; empty for a bare number. */
  readonly unit: string;
  /** The value in the shown unit; the unit itself is left out. */
  format(value: number): string;
  read(text: string): Reading<number>;
  /** The next round value of the shown unit, up (1) or down (−1); `coarse`: ten steps away. */
  step(value: number, direction: 1 | -1, coarse: boolean): number;
}

/** The next multiple of `size` past `shown`, rounded to 12 digits. */
export const nextStep = (shown: number, direction: 1 | -1, size: number): number => {
  const steps = shown / size;
  const next = direction > 0 ? Math.floor(steps + 1e-6) + 1 : Math.ceil(steps - 1e-6) - 1;
  return Number((next * size).toPrecision(12));
};

/** Value in millimetres. @param stepMm and `stepIn`: one press of an arrow key. */
export const lengthMeasure = (unit: LengthUnit, stepMm = 1, stepIn = 0.125): Measure => ({
  unit,
  format: (value) => formatLength(mm(value), unit),
  read: (text) => readLength(text, unit),
  step: (value, direction, coarse) => {
    const times = coarse ? 10 : 1;
    return unit === 'mm'
      ? nextStep(value, direction, stepMm * times)
      : inchToMm(inch(nextStep(mmToInch(mm(value)), direction, stepIn * times)));
  },
});

/** Value in millimetres from rib to rib, shown as LPI or as a length. */
export const pitchMeasure = (unit: PitchUnit): Measure => ({
  unit: unit === 'lpi' ? 'LPI' : 'mm',
  format: (value) => formatPitch(mm(value), unit),
  read: (text) => readPitch(text, unit),
  step: (value, direction, coarse) =>
    unit === 'lpi'
      ? lpiToMm(lpi(nextStep(mmToLpi(mm(value)), direction, coarse ? 1 : 0.1)))
      : nextStep(value, direction, coarse ? 0.01 : 0.001),
});

/** Value in dpi. */
export const densityMeasure: Measure = {
  unit: 'dpi',
  format: (value) => formatDensity(dpi(value)),
  read: readDensity,
  step: (value, direction, coarse) => nextStep(value, direction, coarse ? 100 : 10),
};

/** A bare number. @param unit is shown but not read. */
export const plainMeasure = (size: number, decimals: number, unit = ''): Measure => ({
  unit,
  format: (value) => trimmed(value, decimals),
  read: readNumber,
  step: (value, direction, coarse) => nextStep(value, direction, coarse ? size * 10 : size),
});

/** A bare number; the unit may be typed after it in one of the spellings. */
export const unitMeasure = (
  size: number,
  decimals: number,
  unit: string,
  spellings: RegExp,
): Measure => ({
  ...plainMeasure(size, decimals, unit),
  read: (text) => readNumber(text.trim().replace(spellings, '')),
});

/** A share (0.001: one part in a thousand), shown and typed in per cent. @param size per cent a press. */
export const percentMeasure = (size: number): Measure => ({
  unit: '%',
  format: (value) => trimmed(100 * value, 4),
  read: (text) => {
    const read = readNumber(text.trim().replace(/\s*(%|per ?cent)$/i, ''));
    return read.ok ? { ...read, value: Number((read.value / 100).toPrecision(12)) } : read;
  },
  step: (value, direction, coarse) =>
    Number((nextStep(100 * value, direction, coarse ? size * 10 : size) / 100).toPrecision(12)),
});
