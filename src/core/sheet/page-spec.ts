/** The page around a woven sheet, as plain data: every dot outside the picture. */
import type { InkMm } from '../pitch/lettering.ts';
import { dpi, mm, wholeDots } from '../units/units.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';

/** Dots [left, right) × [top, bottom) from the page's top left corner. */
export interface PageBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface PageSpec {
  /** Dots in a row of the page, and rows on it. */
  readonly widthDots: number;
  readonly heightDots: number;
  /** Place of the woven sheet, trim and bleed; it may reach beyond the page. */
  readonly woven: PageBox;
  /**
   * The printed part of the woven sheet; left out: all that lies on the page. A tile keeps the whole sheet as
   * `woven`, so that pitch and phase are those of the whole.
   */
  readonly shown?: PageBox;
  /** Where the print is cut. */
  readonly trim: PageBox;
  /** Gratings with the pitch and phase of the picture’s ribs. */
  readonly rails: readonly PageBox[];
  /** Solid black: marks, label, measuring bar. */
  readonly ink: readonly PageBox[];
}

/** A box in millimetres from the page’s top left corner. */
export interface BoxMm {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export const boxOf = ({ across, along, width, height }: InkMm): BoxMm => ({
  left: across,
  top: along,
  width,
  height,
});

/** Functions that round lengths in x and y, and boxes, to whole dots; a box is at least one dot each way. */
export const pageGrid = ({
  ribs,
  acrossDpi,
  alongDpi,
}: Pick<SheetSpec, 'ribs' | 'acrossDpi' | 'alongDpi'>) => {
  const [xDpi, yDpi] = ribs === 'upright' ? [acrossDpi, alongDpi] : [alongDpi, acrossDpi];
  const x = (lengthMm: number) => wholeDots(mm(lengthMm), dpi(xDpi));
  const y = (lengthMm: number) => wholeDots(mm(lengthMm), dpi(yDpi));
  const dots = ({ left, top, width, height }: BoxMm): PageBox => ({
    left: x(left),
    top: y(top),
    right: Math.max(x(left) + 1, x(left + width)),
    bottom: Math.max(y(top) + 1, y(top + height)),
  });
  return { x, y, dots };
};
