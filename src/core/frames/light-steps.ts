/** Frames that are suddenly brighter or darker than those beside them. */
import { medianOf } from '../numeric/median.ts';

/** Frames to each side that a frame is compared with. */
const REACH = 3;
/** A fifth of a stop is seen as a flicker (ours, no source). */
const LEAST_STOPS = 0.2;
/** Where light changes by itself from frame to frame, this many of its usual steps are let pass. */
const USUAL_STEPS = 4;

export interface LightStep {
  readonly index: number;
  /** Against the median of the frames beside it: +1 is twice as bright. */
  readonly stops: number;
}

/**
 * @param meanLights linear light 0 … 1, in the order of the frames. A lasting change, as where one
 *   picture gives way to another, is none: the frames on its far side agree with each other.
 */
export const lightSteps = (meanLights: readonly number[]): LightStep[] => {
  const count = meanLights.length;
  if (count < 4) return [];
  // A black frame is as dark as the darkest step of 16 bits.
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
