/** The printer's own grid, and what of it lies across the ribs. */
import type { Page } from '../schema/page.ts';

/** The carriage runs along the head's bar, the feed moves the paper under it. */
export type PrinterAxis = 'carriage' | 'feed';
/** The edge of the upright page that goes into the printer first: its top, or one of its sides. */
export type FedFirst = 'top' | 'side';

interface OnPrinter {
  readonly ribs: 'upright' | 'lying';
  readonly printer: {
    /** Dots per inch along the printer's axes, above 0. */
    readonly carriageDpi: number;
    readonly feedDpi: number;
    /** Left out: the side where that lays the finer grid across the ribs, else the top. */
    readonly fedFirst?: FedFirst | undefined;
  };
}

/** The printer's grid as the ribs meet it. */
interface SheetGrid {
  readonly acrossDpi: number;
  readonly alongDpi: number;
  /** The printer's axis across the ribs. */
  readonly axis: PrinterAxis;
  readonly fedFirst: FedFirst;
}

const axisAcross = (ribs: OnPrinter['ribs'], fedFirst: FedFirst): PrinterAxis =>
  (ribs === 'upright') === (fedFirst === 'top') ? 'carriage' : 'feed';

/**
 * Dots per inch across and along the ribs. With its top edge first the page's rows lie along the carriage, with a side
 * first along the feed; upright ribs are crossed by rows, lying ones by columns.
 */
export const gridOf = ({ ribs, printer }: OnPrinter): SheetGrid => {
  const { carriageDpi, feedDpi } = printer;
  const finer: PrinterAxis | undefined =
    carriageDpi === feedDpi ? undefined : carriageDpi > feedDpi ? 'carriage' : 'feed';
  const turned = finer !== undefined && axisAcross(ribs, 'top') !== finer;
  const fedFirst = printer.fedFirst ?? (turned ? 'side' : 'top');
  const axis = axisAcross(ribs, fedFirst);
  const [acrossDpi, alongDpi] =
    axis === 'carriage' ? [carriageDpi, feedDpi] : [feedDpi, carriageDpi];
  return { acrossDpi, alongDpi, axis, fedFirst };
};

/**
 * The axis across the ribs of a strip. One kept before the axis was noted was woven for a page with its top edge
 * first.
 */
export const axisOfStrip = (
  axis: PrinterAxis | undefined,
  ribs: OnPrinter['ribs'] = 'upright',
): PrinterAxis => axis ?? axisAcross(ribs, 'top');

/** Whether all files that are laid under the lens are mirrored left to right, whole page or not. */
export const isMirrored = ({ page }: { readonly page?: Page | undefined }): boolean =>
  page?.mirrored === true;
