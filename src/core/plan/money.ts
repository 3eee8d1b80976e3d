/** How pieces come out of a sheet of material. */
import type { Mm } from '../units/units.ts';

export interface PieceSize {
  readonly widthMm: Mm;
  readonly heightMm: Mm;
}

/** Whole numbers from 0. */
export interface Layout {
  readonly across: number;
  readonly down: number;
}

/**
 * Pieces in straight rows and columns, none turned, with `gapMm` between neighbours and none at the edges. None for a
 * sheet without size.
 */
export const layOut = (sheet: PieceSize, piece: PieceSize, gapMm: Mm): Layout => {
  const along = (length: number, size: number) =>
    // The last piece needs no gap after it; rounding must not cost a piece.
    Math.max(0, Math.floor((length + gapMm) / (size + gapMm) + 1e-9));
  const across = along(sheet.widthMm, piece.widthMm);
  const down = along(sheet.heightMm, piece.heightMm);
  return across === 0 || down === 0 ? { across: 0, down: 0 } : { across, down };
};
