/**
 * Reads measures as people type them: `60 lpi`, `0.42 mm`, `8"`, `8 1/2 in`, `45 cm`, `0,42 mm`. A bare number has
 * the unit that the field shows. Nothing is guessed: text that could mean two numbers is refused, with a sentence
 * that says how to write it.
 */
import type { Dpi, Mm } from './units.ts';
import { dpi, inch, inchToMm, lpi, lpiToMm, mm, MM_PER_INCH } from './units.ts';

export type LengthUnit = 'mm' | 'in';
export type PitchUnit = 'lpi' | 'mm';

export type Reading<Value, Unit = string> =
  | {
      readonly ok: true;
      readonly value: Value;
      /** The unit that was typed, or the shown one for a bare number. */
      readonly unit: Unit;
    }
  | { readonly ok: false; readonly message: string };

const refused = (message: string) => ({ ok: false, message }) as const;

/** Millimetres in each unit of length. The yard and its parts: exact since 1959. */
const lengthsMm: Readonly<Record<string, number>> = {
  mm: 1,
  millimetre: 1,
  millimeter: 1,
  cm: 10,
  centimetre: 10,
  centimeter: 10,
  m: 1000,
  metre: 1000,
  meter: 1000,
  µm: 0.001,
  um: 0.001,
  micron: 0.001,
  in: MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
  ft: 12 * MM_PER_INCH,
  foot: 12 * MM_PER_INCH,
  feet: 12 * MM_PER_INCH,
  "'": 12 * MM_PER_INCH,
};

/** Factor from the typed number to a count per inch. */
const pitchesPerInch: Readonly<Record<string, number>> = {
  lpi: 1,
  '/in': 1,
  'per in': 1,
  'per inch': 1,
  'to the inch': 1,
  'lines/in': 1,
  'lines per inch': 1,
  'lenticules per inch': 1,
  '/cm': 2.54,
  'per cm': 2.54,
  '/mm': MM_PER_INCH,
  'per mm': MM_PER_INCH,
};

const densitiesPerInch: Readonly<Record<string, number>> = {
  dpi: 1,
  ppi: 1,
  '/in': 1,
  'per in': 1,
  'per inch': 1,
  'to the inch': 1,
  'dots/in': 1,
  'dots/inch': 1,
  'dots per inch': 1,
  'dots to the inch': 1,
  'dots an inch': 1,
  '/cm': 2.54,
  'per cm': 2.54,
  'dots/cm': 2.54,
  'dots per cm': 2.54,
  '/mm': MM_PER_INCH,
  'per mm': MM_PER_INCH,
  'dots/mm': MM_PER_INCH,
  'dots per mm': MM_PER_INCH,
};

/** A whole number with a fraction, a fraction, or a decimal with point or comma; then a unit. */
const pattern =
  /^([+-]?)\s*(?:(\d+)[\s-]+(\d+)\s*\/\s*(\d+)|(\d+)\s*\/\s*(\d+)|(\d+[.,](?!\d)|\d*[.,]?\d+(?:[eE][+-]?\d+)?))\s*(.*)$/;

/** One spelling for each sign. A space goes before a fraction sign: NFKC alone would turn 8½ into 81/2. */
const tidy = (text: string): string =>
  text
    .replace(/(\d)\s*(?=[¼-¾⅐-⅞])/g, '$1 ')
    .normalize('NFKC')
    .replace(/[’′]/g, "'")
    .replace(/[“”]|''/g, '"')
    .replace(/⁄/g, '/')
    .replace(/−/g, '-')
    .replace(/μ/g, 'µ')
    .trim()
    .replace(/\s+/g, ' ');

const decimal = (text: string): Reading<number> => {
  if (/^[1-9]\d{0,2},\d{3}$/.test(text)) {
    const plain = text.replace(',', '');
    return refused(
      `"${text}" could be ${plain} or ${text.replace(',', '.')}: leave the comma out.`,
    );
  }
  return { ok: true, value: Number(text.replace(',', '.')), unit: '' };
};

/** Splits text into a number and the unit after it, in lower case; empty for a bare number. */
const split = (typed: string): Reading<number> => {
  const text = tidy(typed);
  if (text === '') return refused('Type a number.');
  const found = pattern.exec(text);
  if (found === null || /^[.,/\d]/.test(found[8] ?? ''))
    return refused(`"${typed.trim()}" is not a number the studio can read.`);
  const [, sign, whole, top, bottom, loneTop, loneBottom, plain] = found;
  const unit = (found[8] ?? '').toLowerCase().replace(/\.$/, '');
  const read: Reading<number> =
    plain === undefined
      ? {
          ok: true,
          value: Number(whole ?? 0) + Number(top ?? loneTop) / Number(bottom ?? loneBottom),
          unit: '',
        }
      : decimal(plain);
  if (!read.ok) return read;
  if (!Number.isFinite(read.value))
    return refused(`"${typed.trim()}" is not a number the studio can hold.`);
  return { ok: true, value: sign === '-' ? -read.value : read.value, unit };
};

/** Looks at own entries only: a unit called `constructor` must not find the one of every object. */
const lookUp = (table: Readonly<Record<string, number>>, unit: string): number | undefined =>
  [unit, unit.replace(/s$/, '')]
    .filter((name) => Object.hasOwn(table, name))
    .map((name) => table[name])[0];

/** Any length → millimetres. @param shown the unit of a bare number. */
export const readLength = (text: string, shown: LengthUnit): Reading<Mm, LengthUnit> => {
  const read = split(text);
  if (!read.ok) return read;
  const unit = read.unit === '' ? shown : read.unit;
  const size = lookUp(lengthsMm, unit);
  if (size === undefined)
    return refused(`"${unit}" is not a length the studio knows: use mm, cm, m, in or ft.`);
  const length = size === MM_PER_INCH ? inchToMm(inch(read.value)) : mm(read.value * size);
  return { ok: true, value: length, unit: size % MM_PER_INCH === 0 ? 'in' : 'mm' };
};

/** A lens pitch, typed as LPI or as a length → millimetres from rib to rib. */
export const readPitch = (text: string, shown: PitchUnit): Reading<Mm, PitchUnit> => {
  const read = split(text);
  if (!read.ok) return read;
  const unit = read.unit === '' ? shown : read.unit;
  const perInch = lookUp(pitchesPerInch, unit);
  if (perInch !== undefined) {
    if (read.value <= 0) return refused('A pitch must be above 0.');
    return { ok: true, value: lpiToMm(lpi(read.value * perInch)), unit: 'lpi' };
  }
  const length = readLength(`${read.value} ${unit}`, 'mm');
  if (!length.ok) return refused(`"${unit}" is not a pitch the studio knows: use lpi, mm or in.`);
  return { ok: true, value: length.value, unit: 'mm' };
};

/** The density of a printer → dpi. */
export const readDensity = (text: string): Reading<Dpi, 'dpi'> => {
  const read = split(text);
  if (!read.ok) return read;
  const factor = read.unit === '' ? 1 : lookUp(densitiesPerInch, read.unit);
  if (factor === undefined)
    return refused(`"${read.unit}" is not a density the studio knows: use dpi or dots/mm.`);
  return { ok: true, value: dpi(read.value * factor), unit: 'dpi' };
};

/** A number without a unit. */
export const readNumber = (text: string): Reading<number, ''> => {
  const read = split(text);
  if (!read.ok) return read;
  if (read.unit !== '') return refused(`Type a number without "${read.unit}".`);
  return { ok: true, value: read.value, unit: '' };
};
