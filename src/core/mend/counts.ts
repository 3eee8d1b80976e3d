/**
 * What a careful eye can count on a failed print. Every count is optional; one left out is unknown.
 *
 * Upright ribs: the head moves to the right. Lying ribs: it moves down, *across* is top to bottom, *along* is left to
 * right.
 */

/** How bands lean, by their end at the top (lying ribs: at the left). */
export type Lean = 'back' | 'forth' | 'none';

/**
 * How bands move while the head moves across: with it or against it. Bands across the ribs move along them: `forth`
 * is down (lying ribs: right), `back` is up (left).
 */
export type Run = 'with' | 'against' | 'forth' | 'back';

/** What was seen; all of it is optional. Lengths in mm, at least 0 unless stated otherwise. */
export interface Counts {
  /** Runs through all views from edge to edge across the ribs; may be fractional. */
  readonly bandsAcross?: number;
  /** The same from end to end along one rib. */
  readonly bandsAlong?: number;
  /**
   * Whether the top end (lying: left end) of a slanting band stands further back (left; lying: up) or forth (right;
   * lying: down) than its other end.
   */
  readonly lean?: Lean;
  readonly run?: Run;
  /** From straight ahead, how far the head moves right (lying: down) until the print's middle jumps. */
  readonly jumpForthMm?: number;
  /** The same to the left (lying: up). */
  readonly jumpBackMm?: number;
  /** How far the head moves from one jump of the print's middle to the next. */
  readonly repeatMm?: number;
  /** How far the head moves while the middle jumps, with first and last frame visible together. */
  readonly jumpTakesMm?: number;
  /** A length on the print across the ribs: as drawn, and as measured by the ruler. */
  readonly barAcross?: Bar;
  readonly barAlong?: Bar;
  /** Whether frames follow each other in the right order as the head moves right (lying: down). */
  readonly order?: 'right' | 'backwards';
  /** Whether anything changes as the head moves. */
  readonly changes?: 'across' | 'never';
  /** A place where the picture differs from its surroundings. */
  readonly patch?: Patch | 'none';
  /** Stripes across the ribs, every second one out of step. */
  readonly stripes?: Stripes | 'none';
  /** Whether fine stripes lie over flat parts of the picture and stay in place as the head moves. */
  readonly standingStripes?: boolean;
  /** Whether edges have a bright or dark line beside them. */
  readonly hardEdges?: boolean;
  /** Whether far and near things are doubled while things at the depth of the print are sharp. */
  readonly doubledByDepth?: boolean;
  /** Whether each frame is clear in the middle of its zone. */
  readonly clearBetween?: boolean;
  /** Viewing distance of the counts; left out: the one that the print was woven for. */
  readonly lookedFromMm?: number;
}

export interface Bar {
  readonly drawnMm: number;
  readonly measuredMm: number;
}

export interface Patch {
  /** Its middle, −½ … ½ of the print’s sizes. */
  readonly across: number;
  readonly along: number;
  /** Its width as a share of the print’s. */
  readonly width: number;
}

export interface Stripes {
  /** From the edge of one stripe to the next. */
  readonly heightMm: number;
  /** How far the head moves from the jump of one stripe to the jump of the next. */
  readonly apartMm: number;
}

/** A number with its uncertainty. */
export interface Estimate {
  readonly value: number;
  /** Two standard deviations: 19 in 20 fall within. */
  readonly plusMinus: number;
}

/**
 * Standard deviation of a count guessed to a quarter (off by up to an eighth, uniformly) with a guessed start (our
 * own value).
 */
export const COUNT_SIGMA = Math.hypot(0.25 / Math.sqrt(12), 0.05);

/** Standard deviation of the head’s place, read from a ruler on the table (our own value). */
export const HEAD_SIGMA_MM = 5;

/** A ruler is read to half a millimetre; the standard deviation is a third of that (our own value). */
export const RULER_SIGMA_MM = 0.5 / 3;

/** The bars of a strip are read to a quarter of a millimetre, as its bench asks. */
export const STRIP_RULER_SIGMA_MM = 0.25 / 3;
