/** What a woven sheet is, as plain data: everything the weave needs and nothing it does not. */

export type Ribs = 'upright' | 'lying';
export type Columns = 'blended' | 'crisp';

export interface SheetSpec {
  /** Dots in a row of the sheet, and rows on it, as printed and seen from the front. */
  readonly widthDots: number;
  readonly heightDots: number;
  /** Dpi across the ribs and along them. Upright ribs: across is left to right. */
  readonly acrossDpi: number;
  readonly alongDpi: number;
  readonly ribs: Ribs;
  /** p_v, the pitch woven into the print: never rounded to dots. */
  readonly viewingPitchMm: number;
  /** Middle of one lenticule, from the middle of the print, across the ribs. 0: centred. */
  readonly offsetMm: number;
  /** N, view slots under one lenticule. */
  readonly viewSlots: number;
  readonly columns: Columns;
}

/** Dots counted across the ribs: a sheet's columns when they stand, its rows when they lie. */
export const dotsAcross = (spec: SheetSpec): number =>
  spec.ribs === 'upright' ? spec.widthDots : spec.heightDots;

/** Dots counted along the ribs. */
export const dotsAlong = (spec: SheetSpec): number =>
  spec.ribs === 'upright' ? spec.heightDots : spec.widthDots;
