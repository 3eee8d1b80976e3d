/** Measures as text. Always a decimal point, never a thousands comma: what is shown can be typed back. */
import type { LengthUnit, PitchUnit } from './parse.ts';
import type { Dpi, Mm } from './units.ts';
import { mmToInch, mmToLpi } from './units.ts';

/** Fixed decimals with the trailing zeros left off; never `-0`, never an exponent in normal ranges. */
export const trimmed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
};

/** A figure to be read, with the minus sign of print in place of the hyphen. Can be typed back. */
export const withMinus = (figure: string): string => figure.replace(/^-/, '−');

/** Enough decimals for a micrometre in either unit. */
export const formatLength = (length: Mm, unit: LengthUnit): string =>
  unit === 'mm' ? trimmed(length, 3) : trimmed(mmToInch(length), 4);

/** For prose and figures, where a tenth of a millimetre is enough. */
export const formatLengthRough = (length: Mm, unit: LengthUnit): string =>
  unit === 'mm' ? trimmed(length, 1) : trimmed(mmToInch(length), 2);

/** In the shown unit, with it: for prose and figures. */
export const sayLength = (length: number, unit: LengthUnit): string =>
  `${formatLengthRough(length as Mm, unit)} ${unit}`;

/** A part of a lens, to a micrometre or so, in the shown unit, with it. */
export const sayFine = (length: number, unit: LengthUnit): string =>
  unit === 'mm' ? `${trimmed(length, 4)} mm` : `${trimmed(mmToInch(length as Mm), 5)} in`;

/** To so many decimals of a millimetre or one more of an inch, in the shown unit, with it. */
export const sayLengthTo = (length: number, unit: LengthUnit, decimals: number): string =>
  unit === 'mm'
    ? `${trimmed(length, decimals)} mm`
    : `${trimmed(mmToInch(length as Mm), decimals + 1)} in`;

/** A micrometre or so, and how sure it is. */
export const sayDoubtedLength = (
  { value, plusMinus }: { readonly value: number; readonly plusMinus: number },
  unit: LengthUnit,
): string => {
  const shown = (length: number) => formatLength(length as Mm, unit);
  return `${withMinus(shown(value))} ±${shown(plusMinus)} ${unit}`;
};

/** Thousandths of a lenticule to the inch, or tenths of a micrometre: finer than any strip can tell. */
export const formatPitch = (pitch: Mm, unit: PitchUnit): string =>
  unit === 'lpi' ? trimmed(mmToLpi(pitch), 3) : trimmed(pitch, 4);

export const formatDensity = (density: Dpi): string => trimmed(density, 2);

export const sayBytes = (bytes: number): string => {
  if (bytes < 1e6) return `${Math.ceil(bytes / 1e3)} kB`;
  if (bytes < 1e9) return `${trimmed(bytes / 1e6, bytes < 1e8 ? 1 : 0)} MB`;
  if (bytes < 1e12) return `${trimmed(bytes / 1e9, 1)} GB`;
  return `${trimmed(bytes / 1e12, 1)} TB`;
};
