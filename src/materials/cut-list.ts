/** Which sheets of the shelves the job is cut from, and how its pieces lie on them. */
import { stripSize } from '../core/pitch/strip-rows.ts';
import type { PieceSize } from '../core/plan/money.ts';
import { layOut } from '../core/plan/money.ts';
import type { Mm } from '../core/units/units.ts';
import { MM_PER_INCH, mm } from '../core/units/units.ts';
import type { Job } from '../job/schema/job.ts';
import { paperOf, stripPlanOf } from '../job/facts/pitch.ts';
import { acrossMm, sheetDensity } from '../job/facts/sheet.ts';
import { LENS_SLICE_MM } from '../job/facts/slice.ts';
import type { LensEntry, PaperEntry, PrinterEntry, Shelves } from './shelves.ts';
import { findEntry } from './shelves.ts';
import { isPrinterOfJob, stockOf } from './use-in-job.ts';

/** Room for a blade between two pieces, and a little to spare (ours, no source). */
const USUAL_GAP_MM = 3;

export const gapOf = (job: Job): Mm => mm(stockOf(job).gapMm ?? USUAL_GAP_MM);

export interface Chosen {
  readonly lens: LensEntry | undefined;
  readonly printer: PrinterEntry | undefined;
  readonly paper: PaperEntry | undefined;
}

/** The entries that the person chose, else the first that have the job's numbers. */
export const chosenOf = (job: Job, shelves: Shelves): Chosen => {
  const { lensId, printerId, paperId } = stockOf(job);
  const { widthMm, heightMm } = paperOf(job);
  const near = (a: number, b: number) => Math.abs(a / b - 1) < 1e-3;
  return {
    lens:
      lensId === undefined
        ? shelves.lenses.find(
            ({ pitchMm, offcutOf }) => offcutOf === undefined && near(pitchMm, job.lens.pitchMm),
          )
        : findEntry(shelves, 'lenses', lensId),
    printer:
      printerId === undefined
        ? shelves.printers.find((entry) => isPrinterOfJob(job, entry))
        : findEntry(shelves, 'printers', printerId),
    paper:
      paperId === undefined
        ? shelves.papers.find(
            (entry) =>
              (near(entry.widthMm, widthMm) && near(entry.heightMm, heightMm)) ||
              (near(entry.heightMm, widthMm) && near(entry.widthMm, heightMm)),
          )
        : findEntry(shelves, 'papers', paperId),
  };
};

/** A sheet and the pieces that are cut from it. */
export interface Cut {
  /** Of the whole sheet. */
  readonly widthMm: Mm;
  readonly heightMm: Mm;
  /** Left blank at every edge. */
  readonly marginMm: Mm;
  readonly gapMm: Mm;
  readonly piece: PieceSize;
  readonly across: number;
  readonly down: number;
  readonly pieces: number;
  /** Turned by a quarter from how the shelf states it. */
  readonly turned: boolean;
}

interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
}

const cutFrom = (sheet: Sheet, turned: boolean, piece: PieceSize, gapMm: Mm): Cut => {
  const [width, height] = turned
    ? [sheet.heightMm, sheet.widthMm]
    : [sheet.widthMm, sheet.heightMm];
  const marginMm = mm(sheet.marginMm);
  const room = { widthMm: mm(width - 2 * marginMm), heightMm: mm(height - 2 * marginMm) };
  const { across, down } = layOut(room, piece, gapMm);
  return {
    widthMm: mm(width),
    heightMm: mm(height),
    marginMm,
    gapMm,
    piece,
    across,
    down,
    pieces: across * down,
    turned,
  };
};

export const printPiece = (job: Job): PieceSize => ({
  widthMm: mm(job.print.widthMm),
  heightMm: mm(job.print.heightMm),
});

/** The sheet's ribs run like the print's, so it lies in one way only. */
export const lensCut = (job: Job, lens: LensEntry, piece = printPiece(job)): Cut =>
  cutFrom({ ...lens, marginMm: 0 }, job.ribs === 'lying', piece, gapOf(job));

/** Paper has no ribs: it lies the way that gives more pieces. */
export const paperCut = (
  job: Job,
  paper: PaperEntry,
  marginMm: number,
  piece = printPiece(job),
): Cut => {
  const sheet = { widthMm: paper.widthMm, heightMm: paper.heightMm, marginMm };
  const asStated = cutFrom(sheet, false, piece, gapOf(job));
  const turned = cutFrom(sheet, true, piece, gapOf(job));
  return turned.pieces > asStated.pieces ? turned : asStated;
};

/** A slice of lens as wide across the ribs as the print, for reading a strip. */
export const slicePiece = (job: Job): PieceSize =>
  job.ribs === 'upright'
    ? { widthMm: acrossMm(job), heightMm: mm(LENS_SLICE_MM) }
    : { widthMm: mm(LENS_SLICE_MM), heightMm: acrossMm(job) };

/** The strip that Calibrate would weave, or a slice of the print if it cannot. */
export const stripPiece = (job: Job): PieceSize => {
  const plan = stripPlanOf(job, 'mm');
  if (!plan.ok) return slicePiece(job);
  const { widthDots, heightDots } = stripSize(plan.spec);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  return {
    widthMm: mm((widthDots * MM_PER_INCH) / horizontalDpi),
    heightMm: mm((heightDots * MM_PER_INCH) / verticalDpi),
  };
};
