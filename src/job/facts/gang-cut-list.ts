/** The cuts of several prints on one lens sheet, in order, as the cutting list shows them. */
import type { GangCut } from '../../core/sheet/gang/gang-cuts.ts';
import type { GangView } from './gang-view.ts';
import type { Job } from '../schema/job.ts';

export interface CutLine {
  /** From 1. */
  readonly number: number;
  /** "Lens sheet", "Strip 2", "Strip 2, part 1". */
  readonly piece: string;
  readonly way: GangCut['way'];
  /** The edge of the piece to measure from, as the file is seen. */
  readonly edge: 'left' | 'top';
  readonly fromEdgeMm: number;
  /** From the same edge of the whole lens sheet. */
  readonly fromSheetMm: number;
  /** Along a groove: the number of usable ribs before it, of `grid.ribs`. */
  readonly afterRib?: number;
  /** Whole ribs from the edge of the piece, if that edge is a cut in a groove. */
  readonly ribsFromEdge?: number;
  /** The side that is waste; `none` where prints touch. */
  readonly waste: 'left' | 'right' | 'above' | 'below' | 'none';
}

const pieceName = ([strip, ...parts]: readonly number[]): string => {
  if (strip === undefined) return 'Lens sheet';
  return [`Strip ${strip}`, ...parts.map((part) => `part ${part}`)].join(', ');
};

export const cutLines = (job: Job, { grid, best }: GangView): readonly CutLine[] =>
  best.cuts.map((cut, index) => {
    const along = cut.way === 'along';
    // Upright ribs are cut from top to bottom, so the cut is measured from the left.
    const sideways = along === (job.ribs === 'upright');
    const [before, after] = sideways ? (['left', 'right'] as const) : (['above', 'below'] as const);
    return {
      number: index + 1,
      piece: pieceName(cut.piece),
      way: cut.way,
      edge: sideways ? 'left' : 'top',
      fromEdgeMm: along ? cut.fromEdge * grid.pitchMm : cut.fromEdge / 1000,
      fromSheetMm: along ? grid.firstGrooveMm + cut.at * grid.pitchMm : grid.edgeMm + cut.at / 1000,
      ...(along ? { afterRib: cut.at } : {}),
      // The sheet's own edge is not in a groove, so no ribs are counted from it.
      ...(along && Number.isInteger(cut.fromEdge) ? { ribsFromEdge: cut.fromEdge } : {}),
      waste: cut.waste === 'none' ? 'none' : cut.waste === 'before' ? before : after,
    };
  });
