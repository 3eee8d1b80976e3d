/**
 * Lens pitches against printer grids: which pairs sit well together before either is bought. Counts
 * to the inch alone, as both are sold: dots per nominal rib are dpi / LPI.
 */

/** Counts to the inch that lens sheets are commonly sold in (common practice, no source). */
export const LENS_COUNTS: readonly number[] = [
  10, 15, 18, 20, 25, 28, 30, 40, 42, 50, 60, 62, 70, 75, 80, 85, 90, 100, 120, 150, 161, 200,
];

/** Dpi of both families of printers (common practice, no source). */
export const PRINTER_GRIDS: readonly number[] = [300, 360, 600, 720, 1200, 1440, 2400, 2880];

/** `whole`: next to nothing left over. `some`: up to a twentieth. `much`: more. `none`: under two dots. */
export type PairGrade = 'whole' | 'some' | 'much' | 'none';

export interface Pair {
  readonly lpi: number;
  readonly dpi: number;
  readonly dots: number;
  /** Frames that can each have a dot of their own. */
  readonly wholeFrames: number;
  /** Dots left over when each frame has the same number of its own. */
  readonly leftOver: number;
  /** The same as a share of all dots under the rib: what is shared between frames, 0 … 1. */
  readonly lost: number;
  readonly grade: PairGrade;
}

/** A thousandth or two of left-over is within what paper and driver stretch (common practice, no source). */
const WHOLE = 0.002;
/** Ours, no source: one dot in twenty shared is hard to see. */
const SOME = 0.05;
/** For binary dust only: whole-number counts never come this near to a limit without being on it. */
const DUST = 1e-9;

const gradeOf = (wholeFrames: number, lost: number): PairGrade => {
  if (wholeFrames < 2) return 'none';
  if (lost <= WHOLE + DUST) return 'whole';
  return lost <= SOME + DUST ? 'some' : 'much';
};

/**
 * Frames that can each have a dot of their own under a rib of so many. A hair under a whole number
 * counts as whole, since the print stretches by as much; but never more than half a dot is made up.
 */
export const wholeDots = (dots: number): number =>
  Math.floor(dots + Math.min((WHOLE + DUST) * dots, 0.5 - DUST));

/**
 * Whether a pair serves: little left over, and a dot each for the frames that are wanted. What the
 * spread of a lens spoils is not in it.
 */
export const suits = ({ grade, wholeFrames }: Pair, framesWanted: number): boolean =>
  (grade === 'whole' || grade === 'some') && wholeFrames >= framesWanted;

/** @param lpi, dpi above 0; throws a RangeError naming the one that is not. */
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

/** Counts in rising order, each once; `own` joins unless it is there to a thousandth. */
export const withOwn = (counts: readonly number[], own: readonly number[]): number[] => {
  const all = [...counts];
  for (const count of own)
    if (!all.some((other) => Math.abs(other / count - 1) < 1e-3)) all.push(count);
  return all.sort((a, b) => a - b);
};

/** Whether two counts are the same as far as the table goes. */
export const sameCount = (a: number, b: number): boolean => Math.abs(a / b - 1) < 1e-3;
