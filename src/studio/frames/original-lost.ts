import type { Floor } from '../floor.ts';

/** Marks a frame whose original can no longer be read. The same file, added again, becomes its original. */
export const originalLost = ({ work }: Floor, frameId: string): void => {
  const { missingOriginals } = work.getState();
  if (!missingOriginals.has(frameId))
    work.setState({ missingOriginals: new Set(missingOriginals).add(frameId) });
};
