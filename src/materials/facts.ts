/** Each kind of entry in one line. */
import { formatLengthRough, formatPitch, trimmed } from '../core/units/format.ts';
import { nameInText } from '../core/names/shown.ts';
import { mm } from '../core/units/units.ts';
import type { EntryOf, ShelfName } from './shelves.ts';
import type { LengthUnit } from '../core/units/parse.ts';
import { money } from './money.ts';

interface Shown {
  readonly units: LengthUnit;
  readonly mark: string;
}

const size = (width: number, height: number, { units }: Shown) =>
  `${formatLengthRough(mm(width), units)} × ${formatLengthRough(mm(height), units)} ${units}`;

const thickness = (value: number, { units }: Shown) =>
  units === 'mm' ? `${trimmed(value, 3)} mm thick` : `${trimmed(value / 25.4, 4)} in thick`;

const priced = (price: number | undefined, { mark }: Shown) =>
  price === undefined ? 'no price yet' : `${money(price, mark)} a sheet`;

const lensFacts = (lens: EntryOf['lenses'], shown: Shown) => [
  `${formatPitch(mm(lens.pitchMm), 'lpi')} LPI`,
  thickness(lens.thicknessMm, shown),
  `index ${trimmed(lens.index, 4)}`,
  `${size(lens.widthMm, lens.heightMm, shown)}, across × along the ribs`,
  lens.offcutOf === undefined ? priced(lens.price, shown) : 'an offcut',
];

const printerFacts = (printer: EntryOf['printers'], { mark, units }: Shown) => [
  `${trimmed(printer.acrossDpi, 2)} × ${trimmed(printer.alongDpi, 2)} dpi, along the carriage × along the feed`,
  printer.marginMm === undefined
    ? 'printer margin not known'
    : `${formatLengthRough(mm(printer.marginMm), units)} ${units} blank at the edges`,
  printer.inkPerSquareMetre === undefined
    ? 'no price for ink yet'
    : `ink ${money(printer.inkPerSquareMetre, mark)} a square metre`,
];

const paperFacts = (paper: EntryOf['papers'], shown: Shown) => [
  size(paper.widthMm, paper.heightMm, shown),
  ...(paper.thicknessMm === undefined ? [] : [thickness(paper.thicknessMm, shown)]),
  ...(paper.profile === undefined ? [] : [`profile ${nameInText(paper.profile.name)}`]),
  priced(paper.price, shown),
];

export const factsOf = <Shelf extends ShelfName>(
  shelf: Shelf,
  entry: EntryOf[Shelf],
  shown: Shown,
): string => {
  const facts = { lenses: lensFacts, printers: printerFacts, papers: paperFacts }[shelf] as (
    entry: EntryOf[Shelf],
    shown: Shown,
  ) => readonly string[];
  return facts(entry, shown).join(' · ');
};
