/** An original that turns out, mid-session, not to be readable any more. */
import { workStore } from '../../state/work.ts';

/** Says so on the Frames bench; the same file, added again, then goes back to its place. */
export const originalLost = (frameId: string): void => {
  const { missingOriginals, set } = workStore.getState();
  if (!missingOriginals.has(frameId))
    set({ missingOriginals: new Set(missingOriginals).add(frameId) });
};
