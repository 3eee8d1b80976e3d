/** How much contrast to take from each picture of a flip, where it shines through in others. */
import { EASE_CELLS } from '../weave/ease.ts';
import type { EaseMask } from '../weave/ease.ts';
import type { GhostPlace } from './ghost-map.ts';

/** Beyond that a place looks washed out. */
export const MOST_EASE = 60;
/** Steps that a ghost is brought down to: a little less than is just noticed. */
const WANTED_STEPS = 0.9;

interface SeenPlaces {
  readonly picture: number;
  readonly places: readonly GhostPlace[];
}

/**
 * Masks by number of the picture. A ghost shrinks about as its source's contrast does, so what is left of it after the
 * masks before says how much of the rest must go. A ghost is not always its source's alone: call it a few times.
 * @param views the places of each picture, with the masks before at work
 */
export const easeMasks = (
  views: readonly SeenPlaces[],
  before: ReadonlyMap<number, EaseMask>,
): Map<number, EaseMask> => {
  const masks = new Map<number, number[]>(
    [...before].map(([picture, mask]) => [picture, [...mask]]),
  );
  for (const { picture, places } of views)
    for (const { x, y, steps, from } of places) {
      if (steps <= WANTED_STEPS || from === picture) continue;
      const mask = masks.get(from) ?? new Array<number>(EASE_CELLS ** 2).fill(0);
      masks.set(from, mask);
      const cell = Math.floor(y * EASE_CELLS) * EASE_CELLS + Math.floor(x * EASE_CELLS);
      const kept = (100 - (before.get(from)?.[cell] ?? 0)) * (WANTED_STEPS / steps);
      mask[cell] = Math.max(mask[cell]!, Math.min(MOST_EASE, Math.ceil(100 - kept)));
    }
  return masks;
};
