/** The page to pin up as a PDF. Loaded when needed, because the library is large. */
import type { PDFFont, PDFPage } from '@cantoo/pdf-lib';
import { PDFDocument, StandardFonts, rgb } from '@cantoo/pdf-lib';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { PageContent } from './page-content.ts';
import type { Mark, PageSize } from './page-layout.ts';
import { layOutPage } from './page-layout.ts';
import { plainLetters } from './plain-letters.ts';
import type { WidthOf } from './text-flow.ts';

const POINTS_PER_MM = 72 / 25.4;

/** A4 for millimetres, 8.5 × 11 in for inches. */
const papers: Readonly<Record<LengthUnit, PageSize>> = {
  mm: { width: 210 * POINTS_PER_MM, height: 297 * POINTS_PER_MM },
  in: { width: 8.5 * 72, height: 11 * 72 },
};

export interface PagePdf {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Letters that the font lacks; each is printed as "?". */
  readonly lost: readonly string[];
  /** Of the steps, in points. */
  readonly typeSize: number;
}

interface Fonts {
  readonly plain: PDFFont;
  readonly bold: PDFFont;
}

/** Measuring is slow and widths are proportional to the size, so each word is measured once. */
const remembered = (fonts: Fonts): WidthOf => {
  const ofOnePoint = new Map<string, number>();
  return (text, size, isBold) => {
    const key = `${isBold ? 'b' : 'p'}${text}`;
    const known = ofOnePoint.get(key);
    const width = known ?? (isBold ? fonts.bold : fonts.plain).widthOfTextAtSize(text, 1);
    if (known === undefined) ofOnePoint.set(key, width);
    return width * size;
  };
};

const draw = (page: PDFPage, mark: Mark, fonts: Fonts) => {
  const fromBottom = page.getHeight() - mark.y;
  if (mark.kind === 'text')
    page.drawText(mark.text, {
      x: mark.x,
      y: fromBottom,
      size: mark.size,
      font: mark.isBold ? fonts.bold : fonts.plain,
    });
  else if (mark.kind === 'box')
    page.drawRectangle({
      x: mark.x,
      y: fromBottom - mark.side,
      width: mark.side,
      height: mark.side,
      borderWidth: 1.2,
      borderColor: rgb(0, 0, 0),
    });
  else
    page.drawLine({
      start: { x: mark.x, y: fromBottom },
      end: { x: mark.x + mark.width, y: fromBottom },
      thickness: 0.75,
    });
};

export const pagePdf = async (content: PageContent, unit: LengthUnit): Promise<PagePdf> => {
  const document = await PDFDocument.create();
  const fonts = {
    plain: await document.embedFont(StandardFonts.Helvetica),
    bold: await document.embedFont(StandardFonts.HelveticaBold),
  };
  const known = new Set(fonts.plain.getCharacterSet());
  const lost = new Set<string>();
  const plain = (text: string) => {
    const letters = plainLetters(text, known);
    for (const letter of letters.lost) lost.add(letter);
    return letters.text;
  };
  const written: PageContent = {
    ...content,
    name: plain(content.name),
    facts: content.facts.map(([name, value]) => [plain(name), plain(value)]),
    steps: content.steps.map((step) => ({
      ...step,
      title: plain(step.title),
      text: plain(step.text),
    })),
  };
  const { marks, typeSize } = layOutPage(written, papers[unit], remembered(fonts));
  document.setTitle(`${content.name}: mounting`, { showInWindowTitleBar: true });
  document.setLanguage('en');
  document.setCreator('Tiltloom');
  document.setProducer('Tiltloom');
  const page = document.addPage([papers[unit].width, papers[unit].height]);
  for (const mark of marks) draw(page, mark, fonts);
  return { bytes: new Uint8Array(await document.save()), lost: [...lost], typeSize };
};
