/**
 * What the job's prints and strips cost, and the time they take, from the shelf entries chosen. What is
 * not known is named and never counted as nothing.
 */
import type { PieceSize } from '../core/plan/money.ts';
import type { Chosen, Cut } from './cut-list.ts';
import { lensCut, paperCut, printPiece, slicePiece, stripPiece } from './cut-list.ts';
import type { Job } from '../job/schema/job.ts';
import { stockOf } from './use-in-job.ts';

/** One part of a cost: a share of a sheet, every piece of which is used. */
export interface Part {
  readonly price: number | undefined;
  readonly cut: Cut | undefined;
  /** Of one piece; undefined while it cannot be told. */
  readonly each: number | undefined;
  /** Why it cannot, as a clause: "the paper has no price yet". */
  readonly lacks: string | undefined;
}

export interface Ink {
  /** Of a square metre. */
  readonly price: number | undefined;
  readonly squareMetres: number;
  readonly each: number | undefined;
  readonly lacks: string | undefined;
}

/** A sum of what is known, and clauses that say what is not in it; a sum of nothing is undefined. */
export interface Total {
  readonly known: number | undefined;
  readonly missing: readonly string[];
}

export interface Costs {
  readonly lens: Part;
  readonly paper: Part;
  readonly ink: Ink;
  readonly print: Total;
  readonly stripPaper: Part;
  readonly stripInk: Ink;
  readonly strip: Total;
  /** A slice of lens to keep for reading strips. It is not used up, and so in no total. */
  readonly lensSlice: Part;
  readonly trials: number;
  readonly strips: number;
  readonly spent: Total;
  readonly hours: Total;
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

/** `count` times a total, which lacks what one of them lacks. None of a thing adds nothing. */
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

export const costsOf = (job: Job, { lens, printer, paper }: Chosen): Costs => {
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
