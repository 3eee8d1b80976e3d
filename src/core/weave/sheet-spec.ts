/** A woven sheet as plain data: everything that the weave needs, and nothing else. */

export type Ribs = 'upright' | 'lying';
export type Columns = 'blended' | 'crisp';

export interface SheetSpec {
  /** Width and height in dots, as printed and seen from the front. */
  readonly widthDots: number;
  readonly heightDots: number;
  /** Dpi across and along the ribs. Upright ribs: across is left to right. */
  readonly acrossDpi: number;
  readonly alongDpi: number;
  readonly ribs: Ribs;
  /** p_v, the woven pitch; never rounded to dots. */
  readonly viewingPitchMm: number;
  /**
   * p in millimetres of the print. Rib k lies at k p on the lens and is seen there, though its dots lie at k p_v: so
   * frames are sampled at k p (relation 1).
   */
  readonly lensPitchMm: number;
  /**
   * From the middle of the print to the middle of a run of views, across the ribs; 0: centred. It moves the dots under
   * the lens, and the views the other way: by one zone for a whole pitch (relation 1).
   */
  readonly offsetMm: number;
  /** N, view slots under one lenticule. */
  readonly viewSlots: number;
  readonly columns: Columns;
}

/** Dots across the ribs: the columns of a sheet with upright ribs, the rows of one with lying ribs. */
export const dotsAcross = (spec: SheetSpec): number =>
  spec.ribs === 'upright' ? spec.widthDots : spec.heightDots;

/**
 * Where the eye sees what is printed `fromMiddleMm` from the middle of the print: over its rib. An eye before the
 * middle sees the rib that lies p / p_v as far out as its dots.
 */
export const seenAtMm = (spec: SheetSpec, fromMiddleMm: number): number =>
  fromMiddleMm * (spec.lensPitchMm / spec.viewingPitchMm);

/** Dots along the ribs. */
export const dotsAlong = (spec: SheetSpec): number =>
  spec.ribs === 'upright' ? spec.heightDots : spec.widthDots;
