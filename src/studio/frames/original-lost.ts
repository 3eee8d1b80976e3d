/** An original that turns out, mid-session, not to be readable any more. */
import type { Floor } from '../floor.ts';

/** Says so on the Frames bench; the same file, added again, then goes back to its place. */
export const originalLost = ({ work }: Floor, frameId: string): void => {
  const { missingOriginals, set } = work.getState();
  if (!missingOriginals.has(frameId))
    set({ missingOriginals: new Set(missingOriginals).add(frameId) });
};
