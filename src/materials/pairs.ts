/** Rows of the table of lenses and printers: which are shown, in which order and words. */
import type { Pair, PairGrade } from '../core/plan/pairing.ts';
import {
  LENS_COUNTS,
  pair,
  PRINTER_GRIDS,
  sameCount,
  suits,
  withOwn,
} from '../core/plan/pairing.ts';
import { trimmed } from '../core/units/format.ts';
import { mm, mmToLpi } from '../core/units/units.ts';
import type { Job } from '../job/schema/job.ts';
import type { Shelves } from './shelves.ts';
import { gridOf } from '../job/facts/printer.ts';

/** Which pairs the table lists: this printer's lenses, this lens's printers, or all. */
export type PairsShown = 'lenses' | 'printers' | 'all';

export interface Row extends Pair {
  readonly id: string;
  readonly isOwnLens: boolean;
  readonly isOwnPrinter: boolean;
  readonly suits: boolean;
}

export const isOwnPair = (row: Row): boolean => row.isOwnLens && row.isOwnPrinter;

interface Added {
  readonly lensCounts: readonly number[];
  readonly printerGrids: readonly number[];
}

/** Adds the lenses and printers of the shelves to those that the person typed. */
export const withShelves = (added: Added, { lenses, printers }: Shelves): Added => ({
  lensCounts: [
    ...added.lensCounts,
    ...lenses.map(({ pitchMm }) => Number(trimmed(mmToLpi(mm(pitchMm)), 3))),
  ],
  printerGrids: [
    ...added.printerGrids,
    ...printers.map(({ acrossDpi, alongDpi }) => Math.max(acrossDpi, alongDpi)),
  ],
});

/** Every lens over every printer, with the job's own and the added ones. */
export const allRows = (job: Job, added: Added, framesWanted: number): Row[] => {
  const ownLpi = Number(trimmed(mmToLpi(mm(job.lens.pitchMm)), 3));
  const ownDpi = gridOf(job).acrossDpi;
  const lenses = withOwn(LENS_COUNTS, [ownLpi, ...added.lensCounts]);
  const printers = withOwn(PRINTER_GRIDS, [ownDpi, ...added.printerGrids]);
  return lenses.flatMap((lpi) =>
    printers.map((dpi) => {
      const figures = pair(lpi, dpi);
      return {
        ...figures,
        id: `${lpi} over ${dpi}`,
        isOwnLens: sameCount(lpi, ownLpi),
        isOwnPrinter: sameCount(dpi, ownDpi),
        suits: suits(figures, framesWanted),
      };
    }),
  );
};

/** The job's own pair is always shown, whether it suits or not. */
export const shownRows = (rows: readonly Row[], shown: PairsShown): Row[] => {
  if (shown === 'all') return [...rows];
  const own = shown === 'lenses' ? 'isOwnPrinter' : 'isOwnLens';
  return rows.filter((row) => isOwnPair(row) || (row[own] && row.suits));
};

const gradeRank: Readonly<Record<PairGrade, number>> = { whole: 0, some: 1, much: 2, none: 3 };

/** Frames told apart, by the id of the row; a row is missing until it is traced. */
export type ToldApart = ReadonlyMap<string, number | undefined>;

/** The number that each column is sorted by. */
const keys = {
  lens: ({ lpi }) => lpi,
  printer: (row) => row.dpi,
  dots: ({ dots }) => dots,
  whole: ({ wholeFrames }) => wholeFrames,
  leftOver: ({ leftOver }) => leftOver,
  lost: (row) => row.lost,
  told: ({ id }, told) => told.get(id) ?? -1,
  // The coarser the lens, the fewer details it shows.
  detail: ({ lpi }) => lpi,
  grade: ({ grade }) => gradeRank[grade],
} satisfies Record<string, (row: Row, told: ToldApart) => number>;

export type Column = keyof typeof keys;
export const columns = Object.keys(keys) as Column[];

export interface Sorting {
  readonly column: Column;
  readonly falling: boolean;
}

/** Rows that are equal in the column stay in the order of lens and printer. */
export const sortRows = (
  rows: readonly Row[],
  { column, falling }: Sorting,
  told: ToldApart,
): Row[] =>
  rows
    .map((row) => ({ row, key: keys[column](row, told) }))
    .sort(
      (a, b) =>
        (a.key - b.key) * (falling ? -1 : 1) || a.row.lpi - b.row.lpi || a.row.dpi - b.row.dpi,
    )
    .map(({ row }) => row);

export const gradeWords: Readonly<Record<PairGrade, string>> = {
  whole: 'nothing over',
  some: 'little shared',
  much: 'much shared',
  none: 'no room',
};

const listed = (counts: readonly number[]): string => {
  const words = counts.map((count) => trimmed(count, 3));
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
};

/** The table's answer in a sentence. */
export const sayWhatSuits = (rows: readonly Row[], shown: PairsShown): string => {
  const good = rows.filter((row) => row.suits);
  if (shown === 'all') return `${good.length} of ${rows.length} pairs suit.`;
  const found =
    shown === 'lenses'
      ? good.filter((row) => row.isOwnPrinter).map(({ lpi }) => lpi)
      : good.filter((row) => row.isOwnLens).map(({ dpi }) => dpi);
  if (found.length === 0)
    return shown === 'lenses'
      ? 'No lens here suits your printer: ask for fewer frames.'
      : 'No printer here suits your lens: ask for fewer frames.';
  return shown === 'lenses'
    ? `Your printer suits lenses of ${listed(found)} LPI.`
    : `Your lens suits printers of ${listed(found)} dpi.`;
};
