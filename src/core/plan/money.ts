/** What a print costs, in whatever currency the prices were given. */
import type { Mm } from '../units/units.ts';

/** A sheet of material as it is bought. */
export interface Stock {
  readonly price: number;
  readonly widthMm: Mm;
  readonly heightMm: Mm;
}

export interface PrintSize {
  readonly widthMm: Mm;
  readonly heightMm: Mm;
}

/**
 * How many pieces come out of a sheet, cut in rows and columns with `gapMm` between them. A lens
 * sheet's ribs have a direction, so pieces are never turned.
 */
export const piecesOf = (stock: Omit<Stock, 'price'>, piece: PrintSize, gapMm: Mm): number => {
  const along = (sheet: number, size: number) =>
    // The last piece needs no gap after it; a trace of rounding must not cost a piece.
    Math.floor((sheet + gapMm) / (size + gapMm) + 1e-9);
  return along(stock.widthMm, piece.widthMm) * along(stock.heightMm, piece.heightMm);
};

export interface Prices {
  readonly lens: Stock;
  readonly paper: Stock;
  /** Ink for a square metre. */
  readonly inkPerSquareMetre: number;
  /** Between pieces cut from one sheet. */
  readonly gapMm: Mm;
}

export interface Cost {
  readonly lensPieces: number;
  readonly paperPieces: number;
  readonly lens: number;
  readonly paper: number;
  readonly ink: number;
  /** Of one print, when every piece of its sheets is used. */
  readonly each: number;
}

/** Undefined when the print does not fit on the lens sheet or the paper. */
export const costOf = (prices: Prices, print: PrintSize): Cost | undefined => {
  const lensPieces = piecesOf(prices.lens, print, prices.gapMm);
  const paperPieces = piecesOf(prices.paper, print, prices.gapMm);
  if (lensPieces < 1 || paperPieces < 1) return undefined;
  const lens = prices.lens.price / lensPieces;
  const paper = prices.paper.price / paperPieces;
  const ink = (prices.inkPerSquareMetre * print.widthMm * print.heightMm) / 1e6;
  return { lensPieces, paperPieces, lens, paper, ink, each: lens + paper + ink };
};

/** What has gone so far: finished prints and the ones thrown away cost alike. */
export const spentOn = (prints: number, each: number): number => prints * each;
