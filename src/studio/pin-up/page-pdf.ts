/** The page to pin up as a PDF. Loaded when needed, because the library is large. */
import type { PDFPage } from '@cantoo/pdf-lib';
import { rgb } from '@cantoo/pdf-lib';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { PageContent } from './page-content.ts';
import type { Mark } from './page-layout.ts';
import { layOutPage } from './page-layout.ts';
import type { PlainPdf, SavedPdf } from './plain-pdf.ts';
import { beginPdf, papers } from './plain-pdf.ts';
import type { WidthOf } from './text-flow.ts';

export interface PagePdf extends SavedPdf {
  /** Of the steps, in points. */
  readonly typeSize: number;
}

type Fonts = PlainPdf['fonts'];

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
  const { page, fonts, letters, finish } = await beginPdf(
    `${content.name}: mounting`,
    papers[unit],
  );
  const written: PageContent = {
    ...content,
    name: letters(content.name),
    facts: content.facts.map(([name, value]) => [letters(name), letters(value)]),
    steps: content.steps.map((step) => ({
      ...step,
      title: letters(step.title),
      text: letters(step.text),
    })),
  };
  const { marks, typeSize } = layOutPage(written, papers[unit], remembered(fonts));
  for (const mark of marks) draw(page, mark, fonts);
  return { ...(await finish()), typeSize };
};
