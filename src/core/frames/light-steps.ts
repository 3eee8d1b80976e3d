/** Finds frames that are suddenly brighter or darker than those beside them. */
import { medianOf } from '../numeric/median.ts';

/** How many frames on each side a frame is compared with. */
const REACH = 3;
/** A fifth of a stop shows as flicker (our own value, no source). */
const LEAST_STOPS = 0.2;
/** Where light changes steadily from frame to frame, this many usual steps are allowed. */
const USUAL_STEPS = 4;

export interface LightStep {
  readonly index: number;
  /** Difference from the median of the frames beside it, in stops: +1 is twice as bright. */
  readonly stops: number;
}

/**
 * @param meanLights linear light 0 … 1, in the order of the frames. A lasting change, as between two pictures, does
 *   not count: the frames after it agree with each other.
 */
export const lightSteps = (meanLights: readonly number[]): LightStep[] => {
  const count = meanLights.length;
  if (count < 4) return [];
  // A black frame counts as the darkest step of 16 bits.
  const stops = meanLights.map((light) => Math.log2(Math.max(light, 1 / 65536)));
  const steps = stops.slice(1).map((stop, i) => Math.abs(stop - stops[i]!));
  const allowed = Math.max(LEAST_STOPS, USUAL_STEPS * medianOf(steps));
  return stops.flatMap((stop, index) => {
    const from = Math.max(0, Math.min(index - REACH, count - 2 * REACH - 1));
    const beside = stops.slice(from, from + 2 * REACH + 1);
    const off = stop - medianOf(beside);
    return Math.abs(off) > allowed ? [{ index, stops: off }] : [];
  });
};
