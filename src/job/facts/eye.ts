/** What an eye in front of the print sees: how far the views mix, and which view it is. */
import { inZone } from '../../core/frames/flip-ahead.ts';
import { zoneWidth } from '../../core/lens/traced.ts';
import type { Blur } from '../../core/lens/mix.ts';
import { dotSpread } from '../../core/lens/mix.ts';
import { evenWidth, spot } from '../../core/lens/spot.ts';
import { dotPitchMm, dpi, mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensOf, movedZones, sheetSpecOf } from './sheet.ts';
import { slotPicturesOf } from './slot-pictures.ts';
import { gridOf } from './printer.ts';

/** The eye's sideways distance from the middle of the print, mm: a tilt of −1 … 1 is one whole zone. */
export const eyeOf = (job: Job, tilt: number): number =>
  (tilt / 2) * zoneWidth(lensOf(job), mm(job.print.viewingDistanceMm));

/** How far views mix for this eye: the lens's traced spot and the printed dot. */
export const blurOf = (job: Job, eyeMm: number): Blur => {
  const lens = lensOf(job);
  const dot = dotSpread(
    dotPitchMm(dpi(gridOf(job).acrossDpi)),
    sheetSpecOf(job).viewingPitchMm,
    job.columns,
  );
  try {
    const distanceMm = mm(job.print.viewingDistanceMm);
    const seen = spot(lens, { offsetMm: mm(eyeMm), distanceMm }, 32);
    return { spot: seen === undefined ? 1 : evenWidth(seen.rmsMm) / lens.pitchMm, dot };
  } catch (error) {
    // No rib can have these measures, as a finding says. The proof then draws an ideal lens.
    if (error instanceof RangeError) return { spot: 0, dot };
    throw error;
  }
};

/** How often the picture changes from one view slot to the next. */
export const viewChangesOf = (job: Job): number =>
  slotPicturesOf(job).slots.filter((shown, slot, all) => slot > 0 && shown !== all[slot - 1])
    .length;

/** What an eye at this tilt sees: "view 7 of 12", "between views 6 and 7 of 12". */
export const sayViewAt = (job: Job, tilt: number): string => {
  const count = job.viewSlots;
  const cells = (inZone(tilt / 2 - movedZones(job)) + 0.5) * count;
  const edge = Math.round(cells);
  if (Math.abs(cells - edge) > 1e-6 || count < 2)
    return `view ${Math.floor(cells) + 1} of ${count}`;
  return `between views ${edge % count === 0 ? count : edge} and ${(edge % count) + 1} of ${count}`;
};
