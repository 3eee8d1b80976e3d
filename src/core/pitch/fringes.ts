/** How a band looks under a lens that does not match it: fringes, from the lens model. */
import type { Blur } from '../lens/mix.ts';
import { blurLeftOf } from '../lens/mix.ts';
import { LINE_SHARE } from './gratings.ts';

/** Distance from one fringe to the next, p1 p2 / |p1 − p2| (Amidror 2000); Infinity for equal pitches. */
export const beatPeriodMm = (firstPitchMm: number, secondPitchMm: number): number =>
  (firstPitchMm * secondPitchMm) / Math.abs(firstPitchMm - secondPitchMm);

/** Fringes from edge to edge, |LPI_print − LPI_v| W (relation 9). */
export const fringesAcross = (bandLpi: number, trueLpi: number, acrossIn: number): number =>
  Math.abs(bandLpi - trueLpi) * acrossIn;

/**
 * Light of a band across its width, 0 … 1, at evenly spaced places from edge to edge. By relation 1 the eye sees,
 * under the rib at x, a place that lies x (LPI_band − LPI_true) ribs beside the dark line. Spot and dot blur it.
 * @param head moves the eye sideways, in zones.
 * @param places length of the result.
 */
export const bandLook = (
  bandLpi: number,
  trueLpi: number,
  acrossIn: number,
  blur: Blur,
  head: number,
  places: number,
): Float64Array => {
  const light = new Float64Array(places);
  for (let i = 0; i < places; i += 1) {
    const x = ((i + 0.5) / places - 0.5) * acrossIn;
    const turn = x * (bandLpi - trueLpi) - head;
    const beside = turn - Math.round(turn);
    let dark = 0;
    // The line of a neighbouring rib may reach in where spot and dot are wide.
    for (const rib of [-1, 0, 1])
      dark +=
        blurLeftOf(rib + LINE_SHARE / 2 - beside, blur) -
        blurLeftOf(rib - LINE_SHARE / 2 - beside, blur);
    light[i] = Math.min(1, Math.max(0, 1 - dark));
  }
  return light;
};
