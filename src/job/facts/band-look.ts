/** How the bands will look, as pixels, by the lens model. */
import { linearToSrgb } from '../../core/colour/srgb.ts';
import { standing } from '../../core/lens/focus.ts';
import type { Blur } from '../../core/lens/mix.ts';
import { dotSpread } from '../../core/lens/mix.ts';
import { evenWidth, spot } from '../../core/lens/spot.ts';
import { bandLook } from '../../core/pitch/fringes.ts';
import { dotPitchMm, dpi, rad } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensOf } from './sheet.ts';
import { gridOf } from './printer.ts';

/** How far this lens and printer blur a line. A lens that cannot exist blurs nothing here. */
export const stripBlur = (job: Job): Blur => {
  const stands = standing(lensOf(job));
  const seen = stands === undefined ? undefined : spot(stands.lens, { angleRad: rad(0) });
  return {
    spot: seen === undefined ? 0 : evenWidth(seen.rmsMm) / job.lens.pitchMm,
    dot: dotSpread(dotPitchMm(dpi(gridOf(job).acrossDpi)), job.lens.pitchMm, 'blended'),
  };
};

export interface Look {
  readonly trueLpi: number;
  readonly acrossIn: number;
  readonly blur: Blur;
  /** The eye's sideways position, in zones. */
  readonly head: number;
}

/** One band, one row: RGBA, 8 bit, sRGB-encoded, opaque. */
export const bandPixels = (bandLpi: number, look: Look, width: number) => {
  const pixels = new Uint8ClampedArray(width * 4).fill(255);
  const { trueLpi, acrossIn, blur, head } = look;
  bandLook(bandLpi, trueLpi, acrossIn, blur, head, width).forEach((light, x) => {
    pixels.fill(Math.round(linearToSrgb(light) * 255), x * 4, x * 4 + 3);
  });
  return pixels;
};

/** The band nearest to the true pitch. */
export const nearestBand = (bandsLpi: readonly number[], trueLpi: number): number =>
  bandsLpi.reduce(
    (best, band, i) =>
      Math.abs(band - trueLpi) < Math.abs((bandsLpi[best] as number) - trueLpi) ? i : best,
    0,
  );
