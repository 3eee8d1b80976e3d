/** Measures as text: a decimal point, never a thousands comma, so that what is shown can be typed back. */
import type { LengthUnit, PitchUnit } from './parse.ts';
import type { Dpi, Mm } from './units.ts';
import { mmToInch, mmToLpi } from './units.ts';

/** Fixed decimals without trailing zeros; never `-0`, never an exponent in the usual ranges. */
export const trimmed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
};

/** Replaces the hyphen by the minus sign of print. The figure can still be typed back. */
export const withMinus = (figure: string): string => figure.replace(/^-/, '−');

const inUnit = (length: number, unit: LengthUnit, decimals: number): string =>
  unit === 'mm' ? trimmed(length, decimals) : trimmed(mmToInch(length as Mm), decimals + 1);

/** To a micrometre, or a ten-thousandth of an inch; without the unit. */
export const formatLength = (length: Mm, unit: LengthUnit): string => inUnit(length, unit, 3);

/** To a tenth of a millimetre, for prose and figures; without the unit. */
export const formatLengthRough = (length: Mm, unit: LengthUnit): string => inUnit(length, unit, 1);

/** With its unit, to a tenth of a millimetre: for prose and figures. */
export const sayLength = (length: number, unit: LengthUnit): string => sayLengthTo(length, unit, 1);

/** With its unit, to a tenth of a micrometre: for parts of a lens. */
export const sayFine = (length: number, unit: LengthUnit): string => sayLengthTo(length, unit, 4);

/** With its unit, to so many decimals of a millimetre, one more of an inch. */
export const sayLengthTo = (length: number, unit: LengthUnit, decimals: number): string =>
  `${inUnit(length, unit, decimals)} ${unit}`;

interface Doubted {
  readonly value: number;
  readonly plusMinus: number;
}

/**
 * "217 ±22": both to the digits that the uncertainty warrants, two of its own. Without a unit.
 * @param most decimals, where it would warrant more
 */
export const sayDoubted = ({ value, plusMinus }: Doubted, most: number): string => {
  const size = Math.abs(plusMinus);
  const warranted = size > 0 ? 1 - Math.floor(Math.log10(size)) : most;
  const decimals = Math.min(most, Math.max(0, warranted));
  // A hundred and more: to the ten, the hundred …
  const step = 10 ** Math.max(0, -warranted);
  const shown = (figure: number) => trimmed(Math.round(figure / step) * step, decimals);
  const [text, doubt] =
    step > 1 ? [shown(value), shown(size)] : [trimmed(value, decimals), trimmed(size, decimals)];
  return `${withMinus(text)} ±${doubt}`;
};

/** A length with its uncertainty and unit, to a micrometre at the finest. */
export const sayDoubtedLength = ({ value, plusMinus }: Doubted, unit: LengthUnit): string => {
  const shown = (length: number) => (unit === 'mm' ? length : mmToInch(length as Mm));
  const doubted = { value: shown(value), plusMinus: shown(plusMinus) };
  return `${sayDoubted(doubted, unit === 'mm' ? 3 : 4)} ${unit}`;
};

/** To a thousandth of an LPI or a tenth of a micrometre: finer than any strip can measure. */
export const formatPitch = (pitch: Mm, unit: PitchUnit): string =>
  unit === 'lpi' ? trimmed(mmToLpi(pitch), 3) : trimmed(pitch, 4);

export const formatDensity = (density: Dpi): string => trimmed(density, 2);

export const sayBytes = (bytes: number): string => {
  if (bytes < 1e6) return `${Math.ceil(bytes / 1e3)} kB`;
  if (bytes < 1e9) return `${trimmed(bytes / 1e6, bytes < 1e8 ? 1 : 0)} MB`;
  if (bytes < 1e12) return `${trimmed(bytes / 1e9, 1)} GB`;
  return `${trimmed(bytes / 1e12, 1)} TB`;
};
