/** The page of a PDF sheet: its boxes, and how the picture lies on it (ISO 32000-1, 14.11.2). */
import type { PageBox } from '../sheet/page-spec.ts';
import type { SheetInfo } from './row-writer.ts';
import { MM_PER_INCH } from '../units/units.ts';

/** Units to the inch (8.3.2.3). */
const POINTS_PER_INCH = 72;
/** Longest side of a page in its own units (annex C.2). */
const LONGEST_SIDE = 14400;

export const mmToPoints = (lengthMm: number): number => (lengthMm * POINTS_PER_INCH) / MM_PER_INCH;

/** Left, bottom, right, top, in points from the page's lower left corner. */
export type Box = readonly [left: number, bottom: number, right: number, top: number];

export interface PdfPage {
  readonly media: Box;
  readonly bleed: Box;
  readonly trim: Box;
  /** Where the picture's dots lie. */
  readonly picture: Box;
}

/** How far from the left and from the foot a sheet of this size lies in the middle of its paper. */
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
 * The page is what was drawn, dots over density exactly, or the paper around it; trim and bleed are the
 * drawing's outline unless told.
 */
export const sheetPage = (info: SheetInfo): PdfPage => {
  const { width, height, horizontalDpi, verticalDpi } = info;
  const outline: Box = [
    0,
    0,
    (width * POINTS_PER_INCH) / horizontalDpi,
    (height * POINTS_PER_INCH) / verticalDpi,
  ];
  /** Dots are counted from the top, points from the foot; boxes never leave the page (14.11.2). */
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

/** Points in one unit of the page: 1, or as many whole ones as keep its sides within the limit. */
export const userUnit = ({ media: [left, bottom, right, top] }: PdfPage): number =>
  Math.max(1, Math.ceil(Math.max(right - left, top - bottom) / LONGEST_SIDE));
