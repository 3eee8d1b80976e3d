/** The cuts of several prints on one lens sheet, in the words and measures of the person who makes them, in their order. */
import type { GangCut } from '../../core/sheet/gang/gang-cuts.ts';
import type { GangView } from './gang.ts';
import type { Job } from '../schema/job.ts';

export interface CutLine {
  /** From 1. */
  readonly number: number;
  /** "Lens sheet", "Strip 2", "Strip 2, part 1". */
  readonly piece: string;
  readonly way: GangCut['way'];
  /** The edge of the piece at hand to measure from, as the file is seen. */
  readonly edge: 'left' | 'top';
  readonly fromEdgeMm: number;
  /** From the same edge of the whole lens sheet. */
  readonly fromSheetMm: number;
  /** Along a groove: the number of usable ribs before it, of `grid.ribs`. */
  readonly afterRib?: number;
  /** Whole ribs from the edge of the piece, where that edge is itself a cut in a groove. */
  readonly ribsFromEdge?: number;
  /** Which side falls off: nothing where prints touch. */
  readonly waste: 'left' | 'right' | 'above' | 'below' | 'none';
}

const pieceName = ([strip, ...parts]: readonly number[]): string => {
  if (strip === undefined) return 'Lens sheet';
  return [`Strip ${strip}`, ...parts.map((part) => `part ${part}`)].join(', ');
};

export const cutLines = (job: Job, { grid, best }: GangView): readonly CutLine[] =>
  best.cuts.map((cut, index) => {
    const along = cut.way === 'along';
    // Ribs that stand are cut along from top to bottom, so measured from the left.
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
      // The sheet's own edge is no groove: its ribs are not counted.
      ...(along && Number.isInteger(cut.fromEdge) ? { ribsFromEdge: cut.fromEdge } : {}),
      waste: cut.waste === 'none' ? 'none' : cut.waste === 'before' ? before : after,
    };
  });
