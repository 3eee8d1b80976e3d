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
  /** From the middle of the print to the middle of a lenticule, across the ribs; 0: centred. */
  readonly offsetMm: number;
  /** N, view slots under one lenticule. */
  readonly viewSlots: number;
  readonly columns: Columns;
}

/** Dots across the ribs: the columns of a sheet with upright ribs, the rows of one with lying ribs. */
export const dotsAcross = (spec: SheetSpec): number =>
  spec.ribs === 'upright' ? spec.widthDots : spec.heightDots;

/** Dots along the ribs. */
export const dotsAlong = (spec: SheetSpec): number =>
  spec.ribs === 'upright' ? spec.heightDots : spec.widthDots;
