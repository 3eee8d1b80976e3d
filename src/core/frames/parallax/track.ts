/** How the camera went along its slide, told by the motion of all neighbouring pairs. */
import { medianOf } from '../../numeric/median.ts';
import type { PairMotion } from './pair.ts';
import { lenticulesOf, stepsOf } from './summary.ts';

/** One value a frame, the first 0. Frame j shows a place moved by slope × along + slip against frame 0. */
export interface Track {
  /** In ordinary steps: 0, 1, 2 … when the steps are even. */
  readonly along: readonly number[];
  /** Pixels by which the whole picture lies further right than its step says. */
  readonly slip: readonly number[];
  /** Pixels by which the whole picture lies lower. */
  readonly rise: readonly number[];
}

/** Places that must be believed for a pair to count as one scene seen twice. */
const PLACES_AT_LEAST = 60;
/** Steps outside this, against the ordinary one, are no steps of one camera slide. */
const [SHORTEST, LONGEST] = [0.2, 5];

const summed = (steps: readonly number[]): number[] => {
  const sums = [0];
  for (const step of steps) sums.push(sums.at(-1)! + step);
  return sums;
};

/**
 * @param acrossPx size of the frames across the ribs, in the pixels they are matched at.
 * @returns undefined when the frames are not one scene seen from one camera slide.
 */
export const trackOf = (pairs: readonly PairMotion[], acrossPx: number): Track | undefined => {
  const known = ({ shift }: PairMotion) => shift.filter((value) => !Number.isNaN(value)).length;
  if (pairs.length < 2 || pairs.some((pair) => known(pair) < PLACES_AT_LEAST)) return undefined;
  const scale = { lenticulesAcross: acrossPx, keyShift: 0 };
  const steps = stepsOf(pairs.map((pair) => lenticulesOf(pair, scale))).map(
    ({ stretch, slip }) => ({
      // Of a flat scene only the slip is known: any step does.
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
