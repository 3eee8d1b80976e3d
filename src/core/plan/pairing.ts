/**
 * Lens pitches against printer grids: which pairs fit well before either is bought. In counts per inch, as both are
 * sold: dots per nominal rib are dpi / LPI.
 */

/** Lenticules per inch in which lens sheets are commonly sold (common practice, no source). */
export const LENS_COUNTS: readonly number[] = [
  10, 15, 18, 20, 25, 28, 30, 40, 42, 50, 60, 62, 70, 75, 80, 85, 90, 100, 120, 150, 161, 200,
];

/** Dpi of both families of printers (common practice, no source). */
export const PRINTER_GRIDS: readonly number[] = [300, 360, 600, 720, 1200, 1440, 2400, 2880];

/**
 * By what is left over: `whole`, next to nothing; `some`, up to a twentieth; `much`, more. `none`: below two dots.
 */
export type PairGrade = 'whole' | 'some' | 'much' | 'none';

export interface Pair {
  readonly lpi: number;
  readonly dpi: number;
  readonly dots: number;
  /** Frames that can each have a dot of their own. */
  readonly wholeFrames: number;
  /** Dots left over when each frame has the same number of its own. */
  readonly leftOver: number;
  /** `leftOver` as a share of the dots under the rib, 0 … 1: frames share it. */
  readonly lost: number;
  readonly grade: PairGrade;
}

/** A thousandth or two left over is within the stretch of paper and driver (common practice, no source). */
const WHOLE = 0.002;
/** One shared dot in twenty is hard to see (our own value, no source). */
const SOME = 0.05;
/** Allows for rounding: whole counts never come this close to a limit without being on it. */
const DUST = 1e-9;

const gradeOf = (wholeFrames: number, lost: number): PairGrade => {
  if (wholeFrames < 2) return 'none';
  if (lost <= WHOLE + DUST) return 'whole';
  return lost <= SOME + DUST ? 'some' : 'much';
};

/**
 * Frames that can each have a dot of their own. A count just below a whole number counts as whole, since the print
 * stretches by as much; but never more than half a dot is added.
 */
export const wholeDots = (dots: number): number =>
  Math.floor(dots + Math.min((WHOLE + DUST) * dots, 0.5 - DUST));

/**
 * True when a pair fits: little left over, and a dot for each wanted frame. The spread of the lens is not considered.
 */
export const suits = ({ grade, wholeFrames }: Pair, framesWanted: number): boolean =>
  (grade === 'whole' || grade === 'some') && wholeFrames >= framesWanted;

/** @throws RangeError that names the count that is not above 0. */
export const pair = (lpi: number, dpi: number): Pair => {
  for (const [field, value] of Object.entries({ lpi, dpi }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a count above 0, received ${value}`);
  const dots = dpi / lpi;
  const wholeFrames = wholeDots(dots);
  const leftOver = Math.max(0, dots - wholeFrames);
  const lost = leftOver / dots;
  return { lpi, dpi, dots, wholeFrames, leftOver, lost, grade: gradeOf(wholeFrames, lost) };
};

/** Counts in rising order, each once; `own` counts are added unless one is there already. */
export const withOwn = (counts: readonly number[], own: readonly number[]): number[] => {
  const all = [...counts];
  for (const count of own) if (!all.some((other) => sameCount(other, count))) all.push(count);
  return all.sort((a, b) => a - b);
};

/** True for counts that the table shows as one: equal to a thousandth. */
export const sameCount = (a: number, b: number): boolean => Math.abs(a / b - 1) < 1e-3;
