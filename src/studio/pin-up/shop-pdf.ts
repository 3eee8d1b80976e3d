/** The comparison of jobs as a page: a table on its side, its notes below. Loaded when needed: the library is large. */
import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { ShopTable } from '../../materials/shop-table.ts';
import { plainLetters } from './plain-letters.ts';
import { flow } from './text-flow.ts';

const POINTS_PER_MM = 72 / 25.4;
/** On their side. */
const papers: Readonly<Record<LengthUnit, readonly [width: number, height: number]>> = {
  mm: [297 * POINTS_PER_MM, 210 * POINTS_PER_MM],
  in: [11 * 72, 8.5 * 72],
};
/** 14 mm: more than the printer margin of any desktop printer. */
const MARGIN = 40;
const [TITLE, SIZE, LEADING] = [20, 11, 14];
const LABEL_WIDTH = 105;
const GUTTER = 12;
const HEADING = 'What each print takes';

export interface ShopPdf {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Letters that the font lacks; each is printed as "?". */
  readonly lost: readonly string[];
}

/** @param madeOn the day, printed beside the heading */
export const shopPdf = async (
  table: ShopTable,
  unit: LengthUnit,
  madeOn: string,
): Promise<ShopPdf> => {
  const document = await PDFDocument.create();
  const plain = await document.embedFont(StandardFonts.Helvetica);
  const bold = await document.embedFont(StandardFonts.HelveticaBold);
  const known = new Set(plain.getCharacterSet());
  const lost = new Set<string>();
  const letters = (text: string): string => {
    const written = plainLetters(text, known);
    for (const letter of written.lost) lost.add(letter);
    return written.text;
  };
  const page = document.addPage([...papers[unit]]);
  const [right, top] = [page.getWidth() - MARGIN, page.getHeight() - MARGIN];
  const columns = Math.max(1, table.head.length - 1);
  const columnWidth = (right - MARGIN - LABEL_WIDTH) / columns;

  /** Wraps into the room, downward from y. @returns how high it became */
  const write = (text: string, x: number, y: number, room: number, isBold: boolean): number => {
    const lines = flow([{ text: letters(text), isBold }], room, SIZE, (word, size, asBold) =>
      (asBold ? bold : plain).widthOfTextAtSize(word, size),
    );
    lines.forEach((line, at) => {
      for (const piece of line)
        page.drawText(piece.text, {
          x: x + piece.x,
          y: y - at * LEADING - SIZE,
          size: SIZE,
          font: piece.isBold ? bold : plain,
        });
    });
    return Math.max(1, lines.length) * LEADING;
  };
  const rule = (y: number): void =>
    page.drawLine({ start: { x: MARGIN, y }, end: { x: right, y }, thickness: 0.75 });

  page.drawText(HEADING, { x: MARGIN, y: top - TITLE, size: TITLE, font: bold });
  write(madeOn, right - 90, top - TITLE + SIZE, 90, false);
  let y = top - TITLE - 18;
  for (const [at, cells] of [table.head, ...table.rows].entries()) {
    const heights = cells.map((cell, column) => {
      const x = column === 0 ? MARGIN : MARGIN + LABEL_WIDTH + (column - 1) * columnWidth;
      const room = (column === 0 ? LABEL_WIDTH : columnWidth) - GUTTER;
      return write(cell, x, y, room, at === 0);
    });
    y -= Math.max(...heights) + 5;
    rule(y);
    y -= 5;
  }
  y -= 8;
  for (const note of table.notes) y -= write(note, MARGIN, y, right - MARGIN, false);
  document.setTitle(HEADING, { showInWindowTitleBar: true });
  document.setLanguage('en');
  document.setCreator('Tiltloom');
  document.setProducer('Tiltloom');
  return { bytes: new Uint8Array(await document.save()), lost: [...lost] };
};
