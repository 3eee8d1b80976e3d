/**
 * The rows of the lens sheet: paper white, the cut lines, then each print in its place. A row depends on its number
 * only, so any division into bands gives the same dots.
 */
import type { ColumnRange, Rows } from '../../weave/band.ts';
import type { GangSpec, PlacedSheet } from './gang-spec.ts';

/** sRGB code of the cut lines: light enough to be invisible on a print cut slightly too wide. */
const LINE_GREY = 190;

/** Some rows of the lens sheet, and the columns of it that the page shows. */
export interface GangCanvas {
  readonly rows: Rows;
  readonly columns: ColumnRange;
  /** Row-major RGB, 8 bit, sRGB-encoded, length rows.rowCount × columns.count × 3. */
  readonly pixels: Uint8Array<ArrayBuffer>;
}

/** White with the cut lines. */
export const linedCanvas = (gang: GangSpec, rows: Rows, columns: ColumnRange): GangCanvas => {
  const width = columns.count * 3;
  const pixels = new Uint8Array(rows.rowCount * width).fill(255);
  for (const { left, right, top, bottom } of gang.lines) {
    const from = Math.max(0, left - columns.first);
    const to = Math.min(columns.count, right - columns.first);
    if (to <= from) continue;
    const first = Math.max(0, top - rows.firstRow);
    const end = Math.min(rows.rowCount, bottom - rows.firstRow);
    for (let row = first; row < end; row += 1)
      pixels.fill(LINE_GREY, row * width + from * 3, row * width + to * 3);
  }
  return { rows, columns, pixels };
};

/** The rows and columns of a print that a canvas shows, in the print’s own dots; undefined for none. */
export const shownOf = (
  { left, top, sheet }: PlacedSheet,
  { rows, columns }: Pick<GangCanvas, 'rows' | 'columns'>,
): { readonly rows: Rows; readonly columns: ColumnRange } | undefined => {
  const firstRow = Math.max(0, rows.firstRow - top);
  const rowCount = Math.min(sheet.heightDots, rows.firstRow + rows.rowCount - top) - firstRow;
  const first = Math.max(0, columns.first - left);
  const count = Math.min(sheet.widthDots, columns.first + columns.count - left) - first;
  if (rowCount <= 0 || count <= 0) return undefined;
  return { rows: { firstRow, rowCount }, columns: { first, count } };
};

/** Copies the woven dots of `shownOf` into their place. */
export const layIn = (canvas: GangCanvas, placed: PlacedSheet, woven: Uint8Array): void => {
  const shown = shownOf(placed, canvas);
  if (shown === undefined) return;
  const { rows, columns } = shown;
  const bytes = columns.count * 3;
  const x = placed.left + columns.first - canvas.columns.first;
  const y = placed.top + rows.firstRow - canvas.rows.firstRow;
  for (let row = 0; row < rows.rowCount; row += 1)
    canvas.pixels.set(
      woven.subarray(row * bytes, (row + 1) * bytes),
      ((y + row) * canvas.columns.count + x) * 3,
    );
};
