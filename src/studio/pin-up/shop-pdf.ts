/** The comparison of jobs as a page: a table on its side, its notes below. Loaded when needed: the library is large. */
import type { LengthUnit } from '../../core/units/parse.ts';
import type { ShopTable } from '../../materials/shop-table.ts';
import { MARGIN_PT } from './page-layout.ts';
import type { SavedPdf } from './plain-pdf.ts';
import { beginPdf, papers } from './plain-pdf.ts';
import { flow } from './text-flow.ts';

const [TITLE, SIZE, LEADING] = [20, 11, 14];
const LABEL_WIDTH = 105;
const GUTTER = 12;
const HEADING = 'What each print takes';

/** @param madeOn the day, printed beside the heading */
export const shopPdf = async (
  table: ShopTable,
  unit: LengthUnit,
  madeOn: string,
): Promise<SavedPdf> => {
  const { width, height } = papers[unit];
  const { page, fonts, letters, finish } = await beginPdf(HEADING, {
    width: height,
    height: width,
  });
  const [right, top] = [page.getWidth() - MARGIN_PT, page.getHeight() - MARGIN_PT];
  const columns = Math.max(1, table.head.length - 1);
  const columnWidth = (right - MARGIN_PT - LABEL_WIDTH) / columns;

  /** Wraps into the room, downward from y. @returns how high it became */
  const write = (text: string, x: number, y: number, room: number, isBold: boolean): number => {
    const lines = flow([{ text: letters(text), isBold }], room, SIZE, (word, size, asBold) =>
      (asBold ? fonts.bold : fonts.plain).widthOfTextAtSize(word, size),
    );
    lines.forEach((line, at) => {
      for (const piece of line)
        page.drawText(piece.text, {
          x: x + piece.x,
          y: y - at * LEADING - SIZE,
          size: SIZE,
          font: piece.isBold ? fonts.bold : fonts.plain,
        });
    });
    return Math.max(1, lines.length) * LEADING;
  };
  const rule = (y: number): void =>
    page.drawLine({ start: { x: MARGIN_PT, y }, end: { x: right, y }, thickness: 0.75 });

  page.drawText(HEADING, { x: MARGIN_PT, y: top - TITLE, size: TITLE, font: fonts.bold });
  write(madeOn, right - 90, top - TITLE + SIZE, 90, false);
  let y = top - TITLE - 18;
  for (const [at, cells] of [table.head, ...table.rows].entries()) {
    const heights = cells.map((cell, column) => {
      const x = column === 0 ? MARGIN_PT : MARGIN_PT + LABEL_WIDTH + (column - 1) * columnWidth;
      const room = (column === 0 ? LABEL_WIDTH : columnWidth) - GUTTER;
      return write(cell, x, y, room, at === 0);
    });
    y -= Math.max(...heights) + 5;
    rule(y);
    y -= 5;
  }
  y -= 8;
  for (const note of table.notes) y -= write(note, MARGIN_PT, y, right - MARGIN_PT, false);
  return finish();
};
