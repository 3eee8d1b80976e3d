/** The arrow to the top of the file and the measuring bar, as rectangles in millimetres. */
import { barName, lettering } from '../pitch/lettering.ts';
import { MM_PER_INCH } from '../units/units.ts';
import type { BoxMm } from './page-spec.ts';
import { boxOf } from './page-spec.ts';

/** Width and height of the arrow. */
export const ARROW_MM = 2.4;

/** @param squareMm side of a square of the letters beside it. */
export const arrow = (left: number, top: number, squareMm: number): BoxMm[] => {
  const rows = Math.round(ARROW_MM / squareMm);
  return Array.from({ length: rows }, (_, row) => {
    const width = row < rows / 2 ? Math.min(ARROW_MM, squareMm * (2 * row + 1)) : squareMm * 2;
    return {
      left: left + (ARROW_MM - width) / 2,
      top: top + row * squareMm,
      width,
      height: squareMm,
    };
  });
};

/** The longest usual length that fits, or 0. */
export const barLengthMm = (roomMm: number, unit: 'mm' | 'in'): number => {
  const usual =
    unit === 'mm' ? [100, 50, 20, 10, 5] : [4, 2, 1, 0.5, 0.25].map((i) => i * MM_PER_INCH);
  return usual.find((length) => length <= roomMm) ?? 0;
};

const LINE_MM = 0.4;

interface BarAt {
  readonly left: number;
  readonly top: number;
  readonly lengthMm: number;
  readonly tickMm: number;
}

/** Line and ticks: the outer edges of the ticks give the length. */
export const barLines = ({ left, top, lengthMm, tickMm }: BarAt): BoxMm[] => [
  { left, top: top + (tickMm - LINE_MM) / 2, width: lengthMm, height: LINE_MM },
  { left, top, width: LINE_MM, height: tickMm },
  { left: left + lengthMm - LINE_MM, top, width: LINE_MM, height: tickMm },
];

/** The bar’s length in figures. */
export const barFigures = (
  lengthMm: number,
  unit: 'mm' | 'in',
  [left, top]: readonly [number, number],
  squareMm: number,
): BoxMm[] => lettering(barName(lengthMm, unit), left, top, squareMm).map(boxOf);
