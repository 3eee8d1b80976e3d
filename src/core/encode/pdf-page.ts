/** The page of a PDF sheet: its boxes and the place of the picture (ISO 32000-1, 14.11.2). */
import type { PageBox } from '../sheet/page-spec.ts';
import type { SheetInfo } from './row-writer.ts';
import { MM_PER_INCH } from '../units/units.ts';

/** Page units per inch (8.3.2.3). */
const POINTS_PER_INCH = 72;
/** Longest side of a page in page units (annex C.2). */
const LONGEST_SIDE = 14400;

export const mmToPoints = (lengthMm: number): number => (lengthMm * POINTS_PER_INCH) / MM_PER_INCH;

/** Left, bottom, right, top, in points from the page's lower left corner. */
export type Box = readonly [left: number, bottom: number, right: number, top: number];

export interface PdfPage {
  readonly media: Box;
  readonly bleed: Box;
  readonly trim: Box;
  /** The area that the picture’s dots cover. */
  readonly picture: Box;
}

/** Centres an outline on the paper: the media box, and a function that moves a box along with it. */
const onPaper = ({ paperMm }: SheetInfo, [, , width, height]: Box) => {
  const page =
    paperMm === undefined
      ? [width, height]
      : [Math.max(width, mmToPoints(paperMm.width)), Math.max(height, mmToPoints(paperMm.height))];
  const [pageWidth, pageHeight] = page as [number, number];
  const [x, y] = [(pageWidth - width) / 2, (pageHeight - height) / 2];
  const media: Box = [0, 0, pageWidth, pageHeight];
  const moved = ([left, bottom, right, top]: Box): Box => [
    left + x,
    bottom + y,
    right + x,
    top + y,
  ];
  return { media, moved };
};

/**
 * The boxes of a sheet’s page, in points. The page is the sheet, exactly dots / dpi, or the paper around it. Trim and
 * bleed are the sheet’s outline unless `info` gives them.
 */
export const sheetPage = (info: SheetInfo): PdfPage => {
  const { width, height, horizontalDpi, verticalDpi } = info;
  const outline: Box = [
    0,
    0,
    (width * POINTS_PER_INCH) / horizontalDpi,
    (height * POINTS_PER_INCH) / verticalDpi,
  ];
  // Rows count from the top, points from the bottom; boxes stay within the page (14.11.2).
  const inPoints = (box: PageBox): Box => [
    (Math.max(0, box.left) * POINTS_PER_INCH) / horizontalDpi,
    ((height - Math.min(height, box.bottom)) * POINTS_PER_INCH) / verticalDpi,
    (Math.min(width, box.right) * POINTS_PER_INCH) / horizontalDpi,
    ((height - Math.max(0, box.top)) * POINTS_PER_INCH) / verticalDpi,
  ];
  const boxOr = (box: PageBox | undefined) => (box === undefined ? outline : inPoints(box));
  const { media, moved } = onPaper(info, outline);
  return {
    media,
    bleed: moved(boxOr(info.bleed ?? info.trim)),
    trim: moved(boxOr(info.trim)),
    picture: moved(outline),
  };
};

/** Points per page unit: the smallest whole number that keeps both sides within the limit. */
export const userUnit = ({ media: [left, bottom, right, top] }: PdfPage): number =>
  Math.max(1, Math.ceil(Math.max(right - left, top - bottom) / LONGEST_SIDE));
