/** A PDF of one page in the plain type that every reader has. Loaded when needed: the library is large. */
import type { PDFFont, PDFPage } from '@cantoo/pdf-lib';
import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { PageSize } from './page-layout.ts';
import { plainLetters } from './plain-letters.ts';

const POINTS_PER_MM = 72 / 25.4;

/** A4 for millimetres, 8.5 × 11 in for inches, in points. */
export const papers: Readonly<Record<LengthUnit, PageSize>> = {
  mm: { width: 210 * POINTS_PER_MM, height: 297 * POINTS_PER_MM },
  in: { width: 8.5 * 72, height: 11 * 72 },
};

export interface PlainPdf {
  readonly page: PDFPage;
  readonly fonts: { readonly plain: PDFFont; readonly bold: PDFFont };
  /** The text in letters that the type has; those it lacks are remembered and become "?". */
  letters(text: string): string;
  finish(): Promise<SavedPdf>;
}

export interface SavedPdf {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Letters that the font lacks; each is printed as "?". */
  readonly lost: readonly string[];
}

export const beginPdf = async (title: string, { width, height }: PageSize): Promise<PlainPdf> => {
  const document = await PDFDocument.create();
  const fonts = {
    plain: await document.embedFont(StandardFonts.Helvetica),
    bold: await document.embedFont(StandardFonts.HelveticaBold),
  };
  const known = new Set(fonts.plain.getCharacterSet());
  const lost = new Set<string>();
  document.setTitle(title, { showInWindowTitleBar: true });
  document.setLanguage('en');
  document.setCreator('Tiltloom');
  document.setProducer('Tiltloom');
  return {
    page: document.addPage([width, height]),
    fonts,
    letters: (text) => {
      const written = plainLetters(text, known);
      for (const letter of written.lost) lost.add(letter);
      return written.text;
    },
    finish: async () => ({ bytes: new Uint8Array(await document.save()), lost: [...lost] }),
  };
};
