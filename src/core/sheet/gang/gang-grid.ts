/**
 * The ribs of one lens sheet as a grid to lay prints on. Each print is cut off and then looked at by
 * itself, so its middle must lie under the middle of a rib, and its sides in the grooves between ribs:
 * an odd number of whole ribs. Middles are then apart by whole multiples of the pitch of the *lens*, p;
 * the coarser woven pitch counts within each print alone (optics relation 2).
 */

/** One lens sheet and how it is to be used, in millimetres. */
export interface GangSheet {
  /** Across the ribs, and along them. */
  readonly acrossMm: number;
  readonly alongMm: number;
  /** Left free of prints at all four edges. */
  readonly edgeMm: number;
  /** Between neighbours. Across the ribs the next larger whole number of ribs is taken. */
  readonly gapMm: number;
  /** p, the pitch of the lens: not the woven pitch. */
  readonly pitchMm: number;
}

export interface GangGrid extends GangSheet {
  /** Whole ribs that prints may take, an odd number, so that a rib lies in the sheet's middle; 0: none. */
  readonly ribs: number;
  /** From the sheet's edge to the groove before the first of them. */
  readonly firstGrooveMm: number;
  /** Along the ribs, whole micrometres, so that sums of lengths are exact. */
  readonly alongUm: number;
  readonly gapRibs: number;
  readonly gapUm: number;
}

/** Rounding of float64 must not cost a rib. */
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

/** The odd number of whole ribs nearest to a length: what a print of it is cut to. */
export const oddRibs = (lengthMm: number, pitchMm: number): number =>
  Math.max(1, 2 * Math.round((lengthMm / pitchMm - 1) / 2) + 1);
