/** A page for a drawing: its boxes in millimetres from the paper's top left corner, as seen from the front. */
import type { PageBox, PageSpec } from '../../core/sheet/page-spec.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { sheetDensity } from './sheet.ts';

export interface DrawnBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface DrawnPage {
  readonly widthMm: number;
  readonly heightMm: number;
  /** The picture with what goes on past the trim. */
  readonly picture: DrawnBox;
  readonly trim: DrawnBox;
  readonly rails: readonly DrawnBox[];
  /** All ink as one SVG path. */
  readonly inkPath: string;
}

export const drawnPage = (page: PageSpec, job: Job): DrawnPage => {
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const [x, y] = [MM_PER_INCH / horizontalDpi, MM_PER_INCH / verticalDpi];
  const box = ({ left, top, right, bottom }: PageBox): DrawnBox => ({
    left: left * x,
    top: top * y,
    width: (right - left) * x,
    height: (bottom - top) * y,
  });
  const path = ({ left, top, right, bottom }: PageBox) =>
    `M${left * x} ${top * y}H${right * x}V${bottom * y}H${left * x}Z`;
  return {
    widthMm: page.widthDots * x,
    heightMm: page.heightDots * y,
    picture: box(page.shown ?? page.woven),
    trim: box(page.trim),
    rails: page.rails.map(box),
    inkPath: page.ink.map(path).join(''),
  };
};
