/**
 * The rows of the page: paper white, then the woven rows, then rails, then ink. A row depends on its number only, so
 * any division into bands gives the same dots.
 */
import { lineRow } from '../pitch/gratings.ts';
import type { ColumnRange, Rows } from '../weave/band.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import type { PageBox, PageSpec } from './page-spec.ts';

/** The rows of the sheet that some rows of the page show; undefined for none. */
export const wovenRowsFor = ({ woven, shown = woven }: PageSpec, rows: Rows): Rows | undefined => {
  const firstRow = Math.max(rows.firstRow, woven.top, shown.top);
  const end = Math.min(rows.firstRow + rows.rowCount, woven.bottom, shown.bottom);
  return end > firstRow ? { firstRow: firstRow - woven.top, rowCount: end - firstRow } : undefined;
};

/** The columns of the sheet that the page shows; no others need weaving. */
export const wovenColumnsFor = ({ woven, shown = woven, widthDots }: PageSpec): ColumnRange => {
  const from = Math.max(0, woven.left, shown.left);
  const to = Math.min(widthDots, woven.right, shown.right);
  return { first: from - woven.left, count: Math.max(0, to - from) };
};

/**
 * One grating across the ribs over the whole page, RGB. Like a rib’s, the middle of a line lies at the middle of the
 * woven sheet, so that rails and picture change together under the lens.
 */
const railRow = (page: PageSpec, sheet: SheetSpec): Uint8Array => {
  const upright = sheet.ribs === 'upright';
  const first = upright ? page.woven.left : page.woven.top;
  const last = upright ? page.woven.right : page.woven.bottom;
  const across = upright ? page.widthDots : page.heightDots;
  // As many dots on each side of the sheet’s middle, enough for the farther edge.
  const aside = Math.max(0, first, across - last);
  const row = lineRow(sheet.viewingPitchMm, sheet.acrossDpi, last - first + 2 * aside);
  return row.subarray((aside - first) * 3, (aside - first + across) * 3);
};

/** Composes rows of the page from the woven dots of `wovenRowsFor` × `wovenColumnsFor`. Row-major RGB, 8 bit. */
export type PageComposer = (rows: Rows, woven: Uint8Array | undefined) => Uint8Array<ArrayBuffer>;

/** Draws the grating once; the composer then makes any rows of the page. */
export const pageComposer = (page: PageSpec, sheet: SheetSpec): PageComposer => {
  const grating = railRow(page, sheet);
  const rowBytes = page.widthDots * 3;
  const within = (x: number) => Math.min(page.widthDots, Math.max(0, x));
  const columns = wovenColumnsFor(page);
  const from = (page.woven.left + columns.first) * 3;
  const wovenBytes = columns.count * 3;
  return (rows, woven) => {
    const out = new Uint8Array(rows.rowCount * rowBytes).fill(255);
    const shown = wovenRowsFor(page, rows);
    for (let i = 0; i < rows.rowCount; i += 1) {
      const y = rows.firstRow + i;
      const line = out.subarray(i * rowBytes, (i + 1) * rowBytes);
      const wovenRow = y - page.woven.top - (shown?.firstRow ?? 0);
      if (
        shown !== undefined &&
        woven !== undefined &&
        columns.count > 0 &&
        wovenRow >= 0 &&
        wovenRow < shown.rowCount
      ) {
        const at = wovenRow * wovenBytes;
        line.set(woven.subarray(at, at + wovenBytes), from);
      }
      const meets = (box: PageBox) => y >= box.top && y < box.bottom;
      for (const box of page.rails) if (meets(box)) drawRail(line, grating, box, sheet.ribs, y);
      for (const box of page.ink)
        if (meets(box)) line.fill(0, within(box.left) * 3, within(box.right) * 3);
    }
    return out;
  };
};

/** Upright ribs: a stretch of the grating. Lying ribs: the one grey of this row. */
const drawRail = (
  line: Uint8Array,
  grating: Uint8Array,
  box: PageBox,
  ribs: SheetSpec['ribs'],
  y: number,
) => {
  const left = Math.max(0, box.left) * 3;
  const right = Math.max(left, Math.min(line.length, box.right * 3));
  if (ribs === 'upright') line.set(grating.subarray(left, right), left);
  else line.fill(grating[y * 3]!, left, right);
};
