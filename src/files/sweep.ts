/** What earlier visits left on the private disk and nobody can reach any more. */
import { diskFolders } from '../contract/disk.ts';

const removeFolder = async (name: string): Promise<void> => {
  const root = await navigator.storage.getDirectory();
  await root.removeEntry(name, { recursive: true });
};

/** Prepared frames and finished sheets live as long as the page that made them. */
export const sweepLeftovers = async (): Promise<void> => {
  for (const folder of [diskFolders.prepared, diskFolders.sheets])
    await removeFolder(folder).catch(() => undefined); // Not there, or no private disk at all.
};

/** Gives back the disk that a prepared frame took, once nothing reads it any more. */
export const removePrepared = async (diskName: string): Promise<void> => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle(diskFolders.prepared);
  await folder.removeEntry(diskName);
};
