/** The first way to read a strip: the band that turns most evenly. */
import { LINE_SHARE } from './gratings.ts';
import type { PitchReading } from './reading.ts';

export interface BandReading extends PitchReading {
  /** True for the first and the last band: the true pitch may lie beyond. */
  readonly atEnd: boolean;
}

/**
 * Reads the pitch from the most even band.
 * @param place counts half bands: 0 the first band, 1 between the first and the second, 2 the second.
 *
 * Uncertainty: a band that drifts by d zones from edge to edge can be dark all along only while d is within the width
 * τ of the line, and more easily the smaller d is. A triangular judgement over ±τ has the standard deviation τ / √6
 * zones, or τ / (√6 W) (relation 7). The step s between bands adds a uniform half step, s / √12. At an end of the
 * strip there is nothing beyond to compare, so the judgement is uniform over ±τ: τ / √3.
 * @throws RangeError for a place that is not on the strip.
 */
export const readBand = (
  bandsLpi: readonly number[],
  place: number,
  acrossIn: number,
): BandReading => {
  const last = (bandsLpi.length - 1) * 2;
  if (!(Number.isInteger(place) && place >= 0 && place <= last))
    throw new RangeError(`place: expected a whole number from 0 to ${last}, received ${place}`);
  const low = bandsLpi[Math.floor(place / 2)]!;
  const high = bandsLpi[Math.ceil(place / 2)]!;
  const step = (bandsLpi.at(-1)! - bandsLpi[0]!) / (bandsLpi.length - 1);
  const atEnd = place === 0 || place === last;
  const eye = LINE_SHARE / acrossIn / Math.sqrt(atEnd ? 3 : 6);
  return {
    method: 'band',
    viewingLpi: (low + high) / 2,
    plusMinusLpi: 2 * Math.hypot(eye, step / Math.sqrt(12)),
    atEnd,
  };
};
