/**
 * What a careful eye can count on a failed print, and from which numbers it comes. No number is needed
 * that is not asked for; what is left out is not known.
 *
 * Upright ribs: the head moves to the right. Lying ribs: it moves down, and *across* means top to bottom,
 * *along* left to right.
 */

/** Which way the near ends of bands lean: the end at the top (lying ribs: at the left). */
export type Lean = 'back' | 'forth' | 'none';

/**
 * Where bands go while the head moves across: with it, against it; or, where they lie square to the ribs,
 * along the ribs: `forth` down (lying ribs: right), `back` up (left).
 */
export type Run = 'with' | 'against' | 'forth' | 'back';

/** What is seen, all of it optional. Lengths in mm, 0 or more unless said otherwise. */
export interface Counts {
  /** Whole runs through the views from edge to edge across the ribs, parts counted as parts. */
  readonly bandsAcross?: number;
  /** The same from end to end along one rib. */
  readonly bandsAlong?: number;
  /**
   * The top end (lying: left end) of a slanting band stands further back (left; lying: up) or forth
   * (right; lying: down) than its other end.
   */
  readonly lean?: Lean;
  readonly run?: Run;
  /** From straight ahead, how far the head moves right (lying: down) until the print's middle jumps. */
  readonly jumpForthMm?: number;
  /** The same to the left (lying: up). */
  readonly jumpBackMm?: number;
  /** How far the head moves from one jump of the print's middle to the next. */
  readonly repeatMm?: number;
  /** How far it moves while the middle jumps: first and last frame seen at once. */
  readonly jumpTakesMm?: number;
  /** A length on the print across the ribs: as drawn, and by the ruler. */
  readonly barAcross?: Bar;
  readonly barAlong?: Bar;
  /** Whether frames follow each other the right way as the head moves right (lying: down). */
  readonly order?: 'right' | 'backwards';
  /** Whether anything changes as the head moves. */
  readonly changes?: 'across' | 'never';
  /** A place where the picture differs from its surroundings. Shares of the print's sizes from its middle. */
  readonly patch?: Patch | 'none';
  /** Stripes square to the ribs, each second one out of step. */
  readonly stripes?: Stripes | 'none';
  /** Whether fine stripes, standing still as the head moves, lie over flat parts of the picture. */
  readonly standingStripes?: boolean;
  /** Whether edges have a bright or dark line beside them. */
  readonly hardEdges?: boolean;
  /** Whether far and near things are doubled while things at the print's own depth are sharp. */
  readonly doubledByDepth?: boolean;
  /** Whether single frames are clear in the middle of their zone. */
  readonly clearBetween?: boolean;
  /** Distance the counts were made from; left out: the one the print was woven for. */
  readonly lookedFromMm?: number;
}

export interface Bar {
  readonly drawnMm: number;
  readonly measuredMm: number;
}

export interface Patch {
  /** Middle of it, −½ … ½. */
  readonly across: number;
  readonly along: number;
  /** Its width, a share of the print's. */
  readonly width: number;
}

export interface Stripes {
  /** From one stripe's edge to the next. */
  readonly heightMm: number;
  /** How far the head moves from the jump of one stripe to that of the next one. */
  readonly apartMm: number;
}

/** A number with its doubt. */
export interface Estimate {
  readonly value: number;
  /** Two standard deviations: nineteen in twenty fall within. */
  readonly plusMinus: number;
}

/** A guess to a quarter is off by up to an eighth, evenly; and where a band begins is a guess (ours). */
export const COUNT_SIGMA = Math.hypot(0.25 / Math.sqrt(12), 0.05);

/** The head's place beside a ruler on the table is known so well, one standard deviation (ours). */
export const HEAD_SIGMA_MM = 5;

/** A ruler is read to half a millimetre, one standard deviation a third of that (ours). */
export const RULER_SIGMA_MM = 0.5 / 3;
