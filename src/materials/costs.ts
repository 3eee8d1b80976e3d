/**
 * What the job's prints and strips cost, and the time they take, by the chosen shelf entries. Unknown costs are
 * named and never counted as 0.
 */
import type { PieceSize } from '../core/plan/money.ts';
import type { Chosen, Cut } from './cut-list.ts';
import { lensCut, paperCut, printPiece, slicePiece, stripPiece } from './cut-list.ts';
import type { Job } from '../job/schema/job.ts';
import { stockOf } from './use-in-job.ts';

/** One part of a cost: a share of a sheet, as if every piece of the sheet is used. */
export interface Part {
  readonly price: number | undefined;
  readonly cut: Cut | undefined;
  /** The cost of one piece; undefined while it is not known. */
  readonly each: number | undefined;
  /** Why it is not known, as a clause: "the paper has no price yet". */
  readonly lacks: string | undefined;
}

/** `price` is that of a square metre. */
export interface Ink extends Omit<Part, 'cut'> {
  readonly squareMetres: number;
}

/** A sum of what is known (undefined if nothing is), and clauses that name what is missing. */
export interface Total {
  readonly known: number | undefined;
  readonly missing: readonly string[];
}

const partOf = (
  what: string,
  pieceName: string,
  price: number | undefined,
  cut: Cut | undefined,
): Part => {
  const part = (each: number | undefined, lacks?: string): Part => ({ price, cut, each, lacks });
  if (cut === undefined) return part(undefined, `no ${what} is chosen`);
  if (cut.pieces < 1) return part(undefined, `the ${pieceName} does not fit on the ${what}`);
  if (price === undefined) return part(undefined, `the ${what} has no price yet`);
  return part(price / cut.pieces);
};

const inkOf = (chosen: boolean, price: number | undefined, piece: PieceSize): Ink => {
  const squareMetres = (piece.widthMm * piece.heightMm) / 1e6;
  const lacks = chosen ? 'the ink has no price yet' : 'no printer is chosen';
  return price === undefined
    ? { price, squareMetres, each: undefined, lacks }
    : { price, squareMetres, each: price * squareMetres, lacks: undefined };
};

export const totalOf = (parts: readonly Pick<Part, 'each' | 'lacks'>[]): Total => {
  const known = parts.flatMap(({ each }) => (each === undefined ? [] : [each]));
  return {
    known: known.length === 0 ? undefined : known.reduce((sum, each) => sum + each, 0),
    missing: [...new Set(parts.flatMap(({ lacks }) => (lacks === undefined ? [] : [lacks])))],
  };
};

/** `count` times a total, with what it lacks. */
const times = (count: number, { known, missing }: Total): Pick<Part, 'each' | 'lacks'>[] =>
  count === 0
    ? []
    : [
        { each: known === undefined ? undefined : count * known, lacks: undefined },
        ...missing.map((lacks) => ({ each: undefined, lacks })),
      ];

const soFar = (trials: number, print: Total, strips: number, strip: Total): Total =>
  trials + strips === 0
    ? { known: 0, missing: [] }
    : totalOf([...times(trials, print), ...times(strips, strip)]);

const hoursFor = (each: number | undefined, what: string): Total => ({
  known: each,
  missing: each === undefined ? [`the hours for a ${what} are not given`] : [],
});

export const costsOf = (job: Job, { lens, printer, paper }: Chosen) => {
  const piece = printPiece(job);
  const strip = stripPiece(job);
  const paperFor = (of: PieceSize) => paper && paperCut(job, paper, printer?.marginMm ?? 0, of);
  const inkFor = (of: PieceSize) => inkOf(printer !== undefined, printer?.inkPerSquareMetre, of);
  const ofLens = partOf('lens sheet', 'print', lens?.price, lens && lensCut(job, lens));
  const ofPaper = partOf('paper', 'print', paper?.price, paperFor(piece));
  const ink = inkFor(piece);
  const stripPaper = partOf('paper', 'strip', paper?.price, paperFor(strip));
  const stripInk = inkFor(strip);
  const slice = lens && lensCut(job, lens, slicePiece(job));
  const { trials = 0, strips = 0, printHours, stripHours } = stockOf(job);
  const print = totalOf([ofLens, ofPaper, ink]);
  const ofStrip = totalOf([stripPaper, stripInk]);
  return {
    lens: ofLens,
    paper: ofPaper,
    ink,
    print,
    stripPaper,
    stripInk,
    strip: ofStrip,
    /** A slice of lens for reading strips. It is not used up, so no total contains it. */
    lensSlice: partOf('lens sheet', 'slice', lens?.price, slice),
    trials,
    strips,
    spent: soFar(trials, print, strips, ofStrip),
    hours: soFar(
      trials,
      hoursFor(printHours, 'print'),
      strips,
      hoursFor(stripHours, 'pitch strip'),
    ),
  };
};

export type Costs = ReturnType<typeof costsOf>;
