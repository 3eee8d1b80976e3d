/** The print run: all pieces of a print, copy by copy, and which of them are mounted. */
import type { Job } from '../schema/job.ts';
import type { Mounted, PrintRun } from '../schema/print-run.ts';
import { shortTileName, splitOf } from './tiles.ts';

/** How the print is divided, named as the files that are woven of it. */
export type RunKind = 'sheet' | 'several' | 'tiles';

export const runKindOf = ({ tiles, gang }: Pick<Job, 'tiles' | 'gang'>): RunKind =>
  tiles?.on === true ? 'tiles' : gang?.on === true ? 'several' : 'sheet';

export const printRunOf = (job: Job): PrintRun => job.printRun ?? { mounted: [] };

/** Names of the pieces, in the order of their files; none while the print cannot be divided. */
export const pieceNamesOf = (job: Job): readonly string[] => {
  const kind = runKindOf(job);
  if (kind !== 'tiles') return [kind === 'sheet' ? 'sheet' : 'lens sheet'];
  const split = splitOf(job);
  return split.ok ? split.tiling.tiles.map(shortTileName) : [];
};

export interface RunPiece {
  readonly piece: string;
  /** Place of its file among those of the weave. */
  readonly index: number;
  /** From 1. */
  readonly copy: number;
  readonly mounted: Mounted | undefined;
}

/** Copy by copy: a whole print is done before the next is begun. */
export const runPiecesOf = (job: Job): readonly RunPiece[] => {
  const { copies = 1, mounted } = printRunOf(job);
  const names = pieceNamesOf(job);
  const done = new Map(mounted.map((one) => [`${one.copy} ${one.piece}`, one]));
  return Array.from({ length: copies }, (_, at) => at + 1).flatMap((copy) =>
    names.map((piece, index) => ({ piece, index, copy, mounted: done.get(`${copy} ${piece}`) })),
  );
};
