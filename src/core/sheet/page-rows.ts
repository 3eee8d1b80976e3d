/**
 * The page's rows: paper white, the woven rows in their place, then rails, then ink. What a row becomes
 * depends on its number alone, so any division into bands gives the same dots.
 */
import { lineRow } from '../pitch/gratings.ts';
import type { Rows } from '../weave/band.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import type { PageBox, PageSpec } from './page-spec.ts';

/** Rows of the sheet that some rows of the page show; undefined where they show none. */
export const wovenRowsFor = ({ woven }: PageSpec, rows: Rows): Rows | undefined => {
  const firstRow = Math.max(rows.firstRow, woven.top);
  const end = Math.min(rows.firstRow + rows.rowCount, woven.bottom);
  return end > firstRow ? { firstRow: firstRow - woven.top, rowCount: end - firstRow } : undefined;
};

/**
 * One grating over the whole page across the ribs, RGB: a line's middle at the middle of the woven
 * sheet, as a rib's is, so that under the lens rails and picture turn together.
 */
const railRow = (page: PageSpec, sheet: SheetSpec): Uint8Array => {
  const upright = sheet.ribs === 'upright';
  const first = upright ? page.woven.left : page.woven.top;
  const last = upright ? page.woven.right : page.woven.bottom;
  const across = upright ? page.widthDots : page.heightDots;
  // As many dots at one side of the sheet's middle as at the other, enough for the farther edge.
  const aside = Math.max(0, first, across - last);
  const row = lineRow(sheet.viewingPitchMm, sheet.acrossDpi, last - first + 2 * aside);
  return row.subarray((aside - first) * 3, (aside - first + across) * 3);
};

/** @returns for a page's rows and the woven rows of `wovenRowsFor`, row-major RGB, 8 bit. */
export type PageComposer = (rows: Rows, woven: Uint8Array | undefined) => Uint8Array<ArrayBuffer>;

/** Draws the grating once; the composer then makes any rows of the page. */
export const pageComposer = (page: PageSpec, sheet: SheetSpec): PageComposer => {
  const grating = railRow(page, sheet);
  const rowBytes = page.widthDots * 3;
  const within = (x: number) => Math.min(page.widthDots, Math.max(0, x));
  const from = within(page.woven.left);
  const to = within(page.woven.right);
  const skipped = (from - page.woven.left) * 3;
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
        wovenRow >= 0 &&
        wovenRow < shown.rowCount
      ) {
        const at = wovenRow * sheet.widthDots * 3 + skipped;
        line.set(woven.subarray(at, at + Math.max(0, to - from) * 3), from * 3);
      }
      const meets = (box: PageBox) => y >= box.top && y < box.bottom;
      for (const box of page.rails) if (meets(box)) drawRail(line, grating, box, sheet.ribs, y);
      for (const box of page.ink)
        if (meets(box)) line.fill(0, within(box.left) * 3, within(box.right) * 3);
    }
    return out;
  };
};

/** Ribs upright: the grating's own stretch. Lying: this row's one grey, all along. */
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
  else line.fill(grating[y * 3] as number, left, right);
};
