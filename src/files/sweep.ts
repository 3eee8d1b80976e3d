/** What earlier visits left on the private disk and nobody can reach any more. */
import { diskFolders } from '../contract/disk.ts';

const LOCK = 'tiltloom-scratch';

const removeScratch = async (): Promise<void> => {
  const root = await navigator.storage.getDirectory();
  for (const folder of [diskFolders.prepared, diskFolders.sheets])
    await root.removeEntry(folder, { recursive: true }).catch(() => undefined); // Not there.
};

/**
 * Prepared frames and finished sheets live as long as the page that made them. Each page holds a
 * shared lock while it lives; only when no page holds it are the leftovers nobody's, and removed.
 */
export const sweepLeftovers = async (): Promise<void> => {
  try {
    await navigator.locks.request(LOCK, { ifAvailable: true }, async (alone) => {
      if (alone !== null) await removeScratch();
    });
    // Held until the page goes: the promise inside never settles, and nobody waits for it.
    void navigator.locks.request(LOCK, { mode: 'shared' }, () => new Promise(() => undefined));
  } catch {
    // No private disk or no locks here: then there is nothing to sweep, or no safe way to.
  }
};

/** Whether this page alone has prepared frames and sheets there; false where nobody can tell. */
export const isAloneWithScratch = async (): Promise<boolean> => {
  try {
    const { held = [] } = await navigator.locks.query();
    return held.filter(({ name }) => name === LOCK).length <= 1;
  } catch {
    return false;
  }
};

/** Gives back the disk that a prepared frame took, once nothing reads it any more. */
export const removePrepared = async (diskName: string): Promise<void> => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle(diskFolders.prepared);
  await folder.removeEntry(diskName);
};
