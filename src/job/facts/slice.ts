/** A slice of the print for testing a cure: as wide as the print across the ribs, narrow along them. */
import type { PageSpec } from '../../core/sheet/page-spec.ts';
import { dpi, mm, wholeDots } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { sheetSpecOf } from './sheet.ts';

/** Along the ribs: enough to read a strip through, and to hold (ours, no source). */
export const LENS_SLICE_MM = 25;

/** The slice through the print's middle, as a page that shows only this part of the sheet. */
export const sliceOf = (job: Job): PageSpec => {
  const sheet = sheetSpecOf(job);
  const { widthDots, heightDots } = sheet;
  const upright = sheet.ribs === 'upright';
  const along = upright ? heightDots : widthDots;
  const shown = Math.min(along, wholeDots(mm(LENS_SLICE_MM), dpi(sheet.alongDpi)));
  const first = Math.floor((along - shown) / 2);
  const [width, height] = upright ? [widthDots, shown] : [shown, heightDots];
  const [left, top] = upright ? [0, -first] : [-first, 0];
  return {
    widthDots: width,
    heightDots: height,
    woven: { left, top, right: left + widthDots, bottom: top + heightDots },
    trim: { left: 0, top: 0, right: width, bottom: height },
    rails: [],
    ink: [],
  };
};
