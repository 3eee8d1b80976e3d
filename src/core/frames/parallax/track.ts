/** How the camera moved along its slide, from the motion of all neighbouring pairs. */
import { medianOf } from '../../numeric/median.ts';
import type { PairMotion } from './pair.ts';
import { lenticulesOf, stepsOf } from './summary.ts';

/** One value for each frame, the first 0. Against frame 0, frame j shows a place moved by slope × along + slip. */
export interface Track {
  /** In ordinary steps: 0, 1, 2 … when the steps are even. */
  readonly along: readonly number[];
  /** Pixels by which the whole picture lies further right than the step explains. */
  readonly slip: readonly number[];
  /** Pixels by which the whole picture lies lower. */
  readonly rise: readonly number[];
}

/** Trusted places that a pair needs to count as one scene seen twice. */
const PLACES_AT_LEAST = 60;
/** Steps outside this range, against the ordinary one, do not belong to one camera slide. */
const [SHORTEST, LONGEST] = [0.2, 5];

const summed = (steps: readonly number[]): number[] => {
  const sums = [0];
  for (const step of steps) sums.push(sums.at(-1)! + step);
  return sums;
};

/**
 * @param acrossPx size of the frames across the ribs, in pixels of matching.
 * @returns undefined when the frames are not one scene seen from one camera slide.
 */
export const trackOf = (pairs: readonly PairMotion[], acrossPx: number): Track | undefined => {
  const known = ({ shift }: PairMotion) => shift.filter((value) => !Number.isNaN(value)).length;
  if (pairs.length < 2 || pairs.some((pair) => known(pair) < PLACES_AT_LEAST)) return undefined;
  const scale = { lenticulesAcross: acrossPx, keyShift: 0 };
  const steps = stepsOf(pairs.map((pair) => lenticulesOf(pair, scale))).map(
    ({ stretch, slip }) => ({
      // In a flat scene only the slip is known, so any step will do.
      stretch: Number.isNaN(stretch) ? 1 : stretch,
      slip,
    }),
  );
  if (
    steps.some(({ stretch, slip }) => !(stretch > SHORTEST && stretch < LONGEST) || !(slip < 1e9))
  )
    return undefined;
  return {
    along: summed(steps.map(({ stretch }) => stretch)),
    slip: summed(steps.map(({ slip }) => slip)),
    rise: summed(
      pairs.map(
        ({ rise }) => acrossPx * medianOf([...rise].filter((value) => !Number.isNaN(value))),
      ),
    ),
  };
};
