/**
 * The ribs of one lens sheet as a grid for several prints. Each print is cut off and viewed by itself, so its middle
 * must lie under the middle of a rib, and its sides in grooves: it is an odd number of whole ribs wide. Middles are
 * therefore whole multiples of the *lens* pitch p apart; the coarser woven pitch holds within each print only (optics
 * relation 2).
 */

/** The most prints on one sheet (our own value): nobody would cut a longer list. */
export const MOST_PLACES = 300;

/** One lens sheet and its margins, millimetres. */
export interface GangSheet {
  /** Across and along the ribs. */
  readonly acrossMm: number;
  readonly alongMm: number;
  /** Kept free of prints at all four edges. */
  readonly edgeMm: number;
  /** Gap between neighbours, rounded up to whole ribs across them. */
  readonly gapMm: number;
  /** p, the lens pitch, not the woven pitch. */
  readonly pitchMm: number;
}

export interface GangGrid extends GangSheet {
  /** Usable whole ribs, an odd number so that a rib lies in the middle of the sheet; 0 for none. */
  readonly ribs: number;
  /** From the edge of the sheet to the groove before the first of them. */
  readonly firstGrooveMm: number;
  /** Usable length along the ribs in whole micrometres, so that sums are exact. */
  readonly alongUm: number;
  readonly gapRibs: number;
  readonly gapUm: number;
}

/** Millimetres across and along the ribs, from the first corner of the lens sheet. */
export interface RibBox {
  readonly across: readonly [number, number];
  readonly along: readonly [number, number];
}

/** Rounding must not cost a rib. */
const TRACE = 1e-9;

export const wholeUm = (lengthMm: number): number => Math.round(lengthMm * 1000);

export const gangGrid = (sheet: GangSheet): GangGrid => {
  const { acrossMm, alongMm, edgeMm, gapMm, pitchMm } = sheet;
  const most = Math.max(0, Math.floor((acrossMm - 2 * edgeMm) / pitchMm + TRACE));
  const ribs = most % 2 === 0 ? Math.max(0, most - 1) : most;
  return {
    ...sheet,
    ribs,
    firstGrooveMm: (acrossMm - ribs * pitchMm) / 2,
    alongUm: Math.max(0, wholeUm(alongMm - 2 * edgeMm)),
    gapRibs: Math.ceil(gapMm / pitchMm - TRACE),
    gapUm: wholeUm(gapMm),
  };
};

/** The odd number of whole ribs nearest to a length: a print of that length is cut to it. */
export const oddRibs = (lengthMm: number, pitchMm: number): number =>
  Math.max(1, 2 * Math.round((lengthMm / pitchMm - 1) / 2) + 1);
