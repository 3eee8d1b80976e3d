/** Removes what earlier visits left on the private disk. */
import { diskFolders } from '../contract/disk.ts';
import { privateDisk } from './private-disk.ts';

const LOCK = 'tiltloom-scratch';

const removeScratch = async (): Promise<void> => {
  const root = await privateDisk();
  await root.removeEntry(diskFolders.prepared, { recursive: true }).catch(() => undefined); // Not there.
};

/**
 * Prepared frames last as long as the page that made them. Each page holds a shared lock while it is open; the leftovers
 * are removed when no page holds it.
 */
export const sweepLeftovers = async (): Promise<void> => {
  try {
    await navigator.locks.request(LOCK, { ifAvailable: true }, async (alone) => {
      // A disk that is not there, or does not answer, has nothing to sweep; the page still says that it is here.
      if (alone !== null) await removeScratch().catch(() => undefined);
    });
    // Held until the page closes: the promise never settles.
    void navigator.locks.request(LOCK, { mode: 'shared' }, () => new Promise(() => undefined));
  } catch {
    // Without a private disk there is nothing to remove; without locks there is no safe way to do it.
  }
};

/** Whether this page is the only one that is open; false if the browser cannot tell. */
export const isAloneWithScratch = async (): Promise<boolean> => {
  try {
    const { held = [] } = await navigator.locks.query();
    return held.filter(({ name }) => name === LOCK).length <= 1;
  } catch {
    return false;
  }
};

export const removePrepared = async (diskName: string): Promise<void> => {
  const root = await privateDisk();
  const folder = await root.getDirectoryHandle(diskFolders.prepared);
  await folder.removeEntry(diskName);
};
