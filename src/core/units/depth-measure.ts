/** Depths in front of and behind the print as people say them: "35 mm in front", "20 cm behind". */
import { formatLength, formatLengthRough } from './format.ts';
import type { Measure } from './measure.ts';
import { nextStep } from './measure.ts';
import type { LengthUnit } from './parse.ts';
import { readLength } from './parse.ts';
import { inch, inchToMm, mm, mmToInch } from './units.ts';

/** @param z millimetres, below 0 in front; Infinity: "any distance behind". */
const inWords = (z: number, write: (length: number) => string): string => {
  if (z === Infinity) return 'any distance behind';
  const length = write(Math.abs(z));
  if (Number(length.split(' ')[0]) === 0) return 'on the print';
  return `${length} ${z < 0 ? 'in front' : 'behind'}`;
};

/** For prose and drawings, to a tenth of a millimetre. */
export const depthInWords = (z: number, unit: LengthUnit): string =>
  inWords(z, (length) => `${formatLengthRough(mm(length), unit)} ${unit}`);

/** One press of an arrow key, in the shown unit: fine near the print, coarse far from it. */
const stepSize = (shown: number, unit: LengthUnit): number => {
  const least = unit === 'mm' ? 0.5 : 0.02;
  const steps = Math.abs(shown) / least;
  if (steps <= 20) return least;
  return least * (steps <= 200 ? 2 : steps <= 2000 ? 20 : 200);
};

const toShown = (z: number, unit: LengthUnit) => (unit === 'mm' ? z : mmToInch(mm(z)));
const fromShown = (shown: number, unit: LengthUnit) =>
  unit === 'mm' ? shown : inchToMm(inch(shown));

/** A depth rounded to the nearest step, for things placed by hand. Millimetres. */
export const roundDepth = (z: number, unit: LengthUnit): number => {
  const shown = toShown(z, unit);
  const size = stepSize(shown, unit);
  return fromShown(Number((Math.round(shown / size) * size).toPrecision(12)), unit);
};

const sides = /^(.*?)\s*\b(in front|before|front|behind|back)( of (the )?print)?\s*\.?$/i;

/**
 * Depth in millimetres, below 0 in front. A minus sign or words give the side; a bare number stays on the side of
 * `current`, so that "40" typed over "35 mm in front" is in front too.
 */
export const depthMeasure = (unit: LengthUnit, current: number): Measure => ({
  unit: '',
  format: (z) => inWords(z, (length) => `${formatLength(mm(length), unit)} ${unit}`),
  read: (text) => {
    if (/^\s*(on|at) the print\s*\.?$/i.test(text)) return { ok: true, value: 0, unit };
    const [, length = text, side] = sides.exec(text.trim()) ?? [];
    const read = readLength(length, unit);
    if (!read.ok) return read;
    const signed = /^\s*[-−+]/.test(length);
    if (side !== undefined && signed)
      return { ok: false, message: 'Say the side by a sign or in words, not both.' };
    const isFront = side === undefined ? !signed && current < 0 : !/^b(ehind|ack)/i.test(side);
    return { ...read, value: isFront ? -read.value : read.value };
  },
  step: (z, direction, coarse) => {
    const shown = toShown(z, unit);
    const size = stepSize(shown, unit) * (coarse ? 10 : 1);
    return fromShown(nextStep(shown, direction, size), unit);
  },
});
