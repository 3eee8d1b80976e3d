/** The first way to read a strip: the band that turns most evenly. */
import { LINE_SHARE } from './gratings.ts';
import type { PitchReading } from './reading.ts';

export interface BandReading extends PitchReading {
  /** The band is the first or the last: the truth may lie beyond it. */
  readonly atEnd: boolean;
}

/**
 * `place` counts half bands: 0 the first band, 1 between the first and the second, 2 the second.
 *
 * How surely: a band with a drift of d zones from edge to edge can be dark all along only while d is
 * within the line's width τ, and stays so the longer the smaller d is. Taking the judgement as
 * triangular over ±τ gives it the standard deviation τ / √6 zones, that is τ / (√6 W) (relation 7). To
 * it the step between bands adds an even doubt of half a step, s / √12. At an end of the strip nothing
 * beyond was compared, so there the judgement is even over ±τ: τ / √3.
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
