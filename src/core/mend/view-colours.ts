/** The views of a print as colours over its picture: bands show their way though neighbouring frames look alike. */
import { linearOfLch, viewColour } from '../colour/view-colour.ts';
import type { SeenFrames } from './seen.ts';

/** How much of the colour; enough of the picture is left to know the place by. */
const SHARE = 0.8;
const WHITE = 65535;

/** @returns the same frames, each with the colour of its view laid over. */
export const withViewColours = (frames: SeenFrames): SeenFrames => ({
  ...frames,
  slots: frames.slots.map((light, slot) => {
    const colour = linearOfLch(viewColour(slot, frames.slots.length));
    return light.map((value, at) => (1 - SHARE) * value + SHARE * WHITE * colour[at % 3]!);
  }),
});
