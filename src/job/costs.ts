/** What the job's prints and strips cost from the shelf entries chosen, and whether they fit at all. */
import { stripSize } from '../core/pitch/strip-rows.ts';
import type { PrintSize } from '../core/plan/money.ts';
import { piecesOf, spentOn } from '../core/plan/money.ts';
import type { Mm } from '../core/units/units.ts';
import { MM_PER_INCH, mm } from '../core/units/units.ts';
import type { Job } from './job.ts';
import { paperOf, stripPlanOf } from './pitch.ts';
import { acrossMm, sheetDensity } from './selectors.ts';
import type { LensEntry, PaperEntry, PrinterEntry, Shelves } from './shelf.ts';
import { findEntry } from './shelf.ts';
import { isPrinterOfJob, stockOf } from './shelf-use.ts';

/** Along the ribs: enough lens to read a strip through, and to hold by (ours, no source). */
export const LENS_SLICE_MM = 25;
const USUAL_GAP_MM = 3;

export const gapOf = (job: Job): Mm => mm(stockOf(job).gapMm ?? USUAL_GAP_MM);

export interface Chosen {
  readonly lens: LensEntry | undefined;
  readonly printer: PrinterEntry | undefined;
  readonly paper: PaperEntry | undefined;
}

/** What the person chose; where nothing was chosen, the first entry that has the job's numbers. */
export const chosenOf = (job: Job, shelves: Shelves): Chosen => {
  const { lensId, printerId, paperId } = stockOf(job);
  const { widthMm, heightMm } = paperOf(job);
  const near = (a: number, b: number) => Math.abs(a / b - 1) < 1e-3;
  return {
    lens:
      lensId === undefined
        ? shelves.lenses.find((entry) => near(entry.pitchMm, job.lens.pitchMm))
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

/** A sheet as it lies under the print, and the pieces that come out of it. */
export interface Cut {
  readonly widthMm: Mm;
  readonly heightMm: Mm;
  readonly pieces: number;
  /** Turned on its side from how the shelf states it. */
  readonly turned: boolean;
}

const cutFrom = (
  widthMm: number,
  heightMm: number,
  turned: boolean,
  piece: PrintSize,
  gap: Mm,
): Cut => {
  const [width, height] = turned ? [heightMm, widthMm] : [widthMm, heightMm];
  const sheet = { widthMm: mm(width), heightMm: mm(height) };
  return { ...sheet, turned, pieces: piecesOf(sheet, piece, gap) };
};

const printSize = (job: Job): PrintSize => ({
  widthMm: mm(job.print.widthMm),
  heightMm: mm(job.print.heightMm),
});

/** The sheet's ribs run as the print's, so its width lies across them: there is no choice. */
export const lensCut = (job: Job, lens: LensEntry, piece: PrintSize = printSize(job)): Cut =>
  cutFrom(lens.widthMm, lens.heightMm, job.ribs === 'lying', piece, gapOf(job));

/** Paper has no ribs: it lies whichever way more pieces come out. What stays blank is taken off. */
export const paperCut = (
  job: Job,
  paper: PaperEntry,
  marginMm: number,
  piece: PrintSize = printSize(job),
): Cut => {
  const [width, height] = [paper.widthMm - 2 * marginMm, paper.heightMm - 2 * marginMm];
  const [asStated, turned] = [false, true].map((way) =>
    cutFrom(width, height, way, piece, gapOf(job)),
  ) as [Cut, Cut];
  return turned.pieces > asStated.pieces ? turned : asStated;
};

/** The strip as the Calibrate bench would weave it; a slice of the print where it cannot. */
export const stripPiece = (job: Job): PrintSize & { readonly planned: boolean } => {
  const plan = stripPlanOf(job, 'mm');
  if (plan.ok) {
    const { widthDots, heightDots } = stripSize(plan.spec);
    const { horizontalDpi, verticalDpi } = sheetDensity(job);
    return {
      widthMm: mm((widthDots * MM_PER_INCH) / horizontalDpi),
      heightMm: mm((heightDots * MM_PER_INCH) / verticalDpi),
      planned: true,
    };
  }
  return { ...slice(job), planned: false };
};

/** A slice of the print, as wide across the ribs. */
const slice = (job: Job): PrintSize =>
  job.ribs === 'upright'
    ? { widthMm: acrossMm(job), heightMm: mm(LENS_SLICE_MM) }
    : { widthMm: mm(LENS_SLICE_MM), heightMm: acrossMm(job) };

/** One part of a cost. `each` is undefined while its price is not known. */
export interface Share {
  readonly price: number | undefined;
  readonly cut: Cut;
  readonly each: number | undefined;
}

export interface Costs {
  readonly lens: Share | undefined;
  readonly paper: Share | undefined;
  /** Of one print, and the area it was reckoned for, m². */
  readonly ink: { readonly price: number | undefined; readonly squareMetres: number };
  readonly inkEach: number | undefined;
  /** Names of what has no price yet, for the person; empty once all is known. */
  readonly missing: readonly string[];
  /** Of one print, without what is missing. */
  readonly print: number;
  /** Of one strip, paper and ink. */
  readonly strip: number;
  readonly stripPaper: Share | undefined;
  readonly stripInk: number | undefined;
  /** Of a slice of lens to keep for reading strips; undefined while it cannot be told. */
  readonly lensSlice: Share | undefined;
  /** Undefined where nothing was counted. */
  readonly trials: number;
  readonly strips: number;
  readonly spent: number;
}

const shareOf = (price: number | undefined, cut: Cut): Share => ({
  price,
  cut,
  each: price === undefined || cut.pieces < 1 ? undefined : price / cut.pieces,
});

export const costsOf = (job: Job, { lens, printer, paper }: Chosen): Costs => {
  const margin = printer?.marginMm ?? 0;
  const ofLens = lens && shareOf(lens.price, lensCut(job, lens));
  const ofPaper = paper && shareOf(paper.price, paperCut(job, paper, margin));
  const piece = stripPiece(job);
  const stripPaper = paper && shareOf(paper.price, paperCut(job, paper, margin, piece));
  const inkPrice = printer?.inkPerSquareMetre;
  const squareMetres = (job.print.widthMm * job.print.heightMm) / 1e6;
  const inkFor = (area: number) => (inkPrice === undefined ? undefined : inkPrice * area);
  const inkEach = inkFor(squareMetres);
  const stripInk = inkFor((piece.widthMm * piece.heightMm) / 1e6);
  const print = (ofLens?.each ?? 0) + (ofPaper?.each ?? 0) + (inkEach ?? 0);
  const strip = (stripPaper?.each ?? 0) + (stripInk ?? 0);
  const { trials = 0, strips = 0 } = stockOf(job);
  return {
    lens: ofLens,
    paper: ofPaper,
    ink: { price: inkPrice, squareMetres },
    inkEach,
    missing: [
      ...(ofLens?.each === undefined ? ['the lens sheet'] : []),
      ...(ofPaper?.each === undefined ? ['the paper'] : []),
      ...(inkEach === undefined ? ['the ink'] : []),
    ],
    print,
    strip,
    stripPaper,
    stripInk,
    lensSlice: lens && shareOf(lens.price, lensCut(job, lens, slice(job))),
    trials,
    strips,
    spent: spentOn(trials, print) + spentOn(strips, strip),
  };
};
