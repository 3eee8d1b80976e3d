/**
 * The shelves before the person fills them: invented lens sheets and common printer grids, which are called
 * generic and nominal, and standard paper sizes. None has a price.
 */
import { papers as paperSizes } from '../core/pitch/paper.ts';
import { MM_PER_INCH } from '../core/units/units.ts';
import type { Entry, LensEntry, PaperEntry, PrinterEntry, Shelves } from './shelves.ts';
import { emptyShelves } from './shelves.ts';

const CONFIRM = 'Confirm with the supplier’s data and prove the pitch.';

/** PETG, docs/optics.md. */
const INDEX = 1.57;

/** In focus: t = n R / (n − 1), to the micrometre. The radii are ours and give usual viewing cones. */
const lens = (lpi: number, radiusMm: number): LensEntry => ({
  id: `starter-lens-${lpi}`,
  name: `Generic ${lpi} LPI, nominal`,
  pitchMm: MM_PER_INCH / lpi,
  thicknessMm: Number(((INDEX * radiusMm) / (INDEX - 1)).toFixed(3)),
  index: INDEX,
  radiusMm,
  widthMm: 300,
  heightMm: 400,
  note: `Invented numbers, in focus by calculation. ${CONFIRM}`,
});

const printer = (acrossDpi: number, alongDpi: number): PrinterEntry => ({
  id: `starter-printer-${acrossDpi}-${alongDpi}`,
  name: `Generic ${acrossDpi} × ${alongDpi} grid, nominal`,
  acrossDpi,
  alongDpi,
  marginMm: 3,
  note: 'Dots along the carriage × along the feed. Confirm with the printer’s data and prove the pitch.',
});

const paper = (key: keyof typeof paperSizes, standard: string): PaperEntry => {
  const { label, sizeMm } = paperSizes[key];
  return {
    id: `starter-paper-${key}`,
    name: label,
    widthMm: sizeMm[0],
    heightMm: sizeMm[1],
    note: `The size alone, ${standard}. Thickness and price are yours to fill in.`,
  };
};

export const starterShelves = (): Shelves => ({
  ...emptyShelves(),
  lenses: [lens(40, 0.48), lens(60, 0.305), lens(75, 0.2), lens(100, 0.14)],
  printers: [printer(600, 600), printer(720, 720), printer(720, 1440)],
  papers: [paper('a4', 'ISO 216'), paper('a3', 'ISO 216'), paper('letter', '8.5 × 11 in')],
});

/** Whether an entry is as the shelves came with it: nobody's own sheet yet. */
export const isUntouchedStarter = (entry: LensEntry): boolean => {
  const starter = starterShelves().lenses.find(({ id }) => id === entry.id);
  return starter !== undefined && JSON.stringify(starter) === JSON.stringify(entry);
};

/** Adds the missing starters at the end of their shelves. */
export const withStarters = (shelves: Shelves): Shelves => {
  const { lenses, printers, papers } = starterShelves();
  const missing = <Item extends Entry>(own: readonly Item[], starters: readonly Item[]) => [
    ...own,
    ...starters.filter(({ id }) => !own.some((entry) => entry.id === id)),
  ];
  return {
    ...shelves,
    lenses: missing(shelves.lenses, lenses),
    printers: missing(shelves.printers, printers),
    papers: missing(shelves.papers, papers),
  };
};
