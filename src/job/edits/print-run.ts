/** Changes to the print run, each a step to undo. */
import { printRunOf } from '../facts/print-run.ts';
import { pitchStanding, printedLensPitch } from '../facts/sheet.ts';
import type { Job } from '../schema/job.ts';
import type { Mounted, PrintRun } from '../schema/print-run.ts';
import type { JobEdit } from './edit.ts';

export type PieceOfRun = Pick<Mounted, 'piece' | 'copy'>;

const setRun = (job: Job, change: Partial<PrintRun>): Job => ({
  ...job,
  printRun: { ...printRunOf(job), ...change },
});

const isOf =
  ({ piece, copy }: PieceOfRun) =>
  (one: PieceOfRun): boolean =>
    one.piece === piece && one.copy === copy;

export const changeCopies = (copies: number): JobEdit => [
  'copies of each',
  (job) => setRun(job, { copies }),
  'run.copies',
];

/** Ticks a piece as mounted today with the job's pitch, and with the lens batch of the one before. */
export const tickMounted = (piece: PieceOfRun, today: string): JobEdit => [
  'mounted',
  (job) => {
    const { mounted } = printRunOf(job);
    if (mounted.some(isOf(piece))) return job;
    const { lensBatch } = mounted.at(-1) ?? {};
    const one: Mounted = {
      piece: piece.piece,
      copy: piece.copy,
      on: today,
      ...(lensBatch !== undefined && { lensBatch }),
      pitchMm: printedLensPitch(job),
      proved: pitchStanding(job) !== 'nominal',
    };
    return setRun(job, { mounted: [...mounted, one] });
  },
];

export const untickMounted = (piece: PieceOfRun): JobEdit => [
  'not mounted',
  (job) => {
    const isIt = isOf(piece);
    return setRun(job, { mounted: printRunOf(job).mounted.filter((one) => !isIt(one)) });
  },
];

/** @param text empty: not noted */
export const changeLensBatch = (piece: PieceOfRun, text: string): JobEdit => [
  'lens batch',
  (job) => {
    const isIt = isOf(piece);
    const noted = ({ lensBatch: _before, ...one }: Mounted): Mounted => ({
      ...one,
      ...(text !== '' && { lensBatch: text }),
    });
    const { mounted } = printRunOf(job);
    return setRun(job, { mounted: mounted.map((one) => (isIt(one) ? noted(one) : one)) });
  },
  `run.batch ${piece.copy} ${piece.piece}`,
];
