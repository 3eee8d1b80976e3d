/** Prepared frames on the browser's private disk, so that a poster's frames need no memory. */
import { diskFolders } from '../src/contract/disk.ts';

/**
 * Writes the pixels to a file of their own and gives it back as a Blob that is read from the disk.
 * Undefined when there is no private disk or it is full: memory then has to do.
 */
export const writePrepared = async (
  pixels: Uint16Array<ArrayBuffer>,
): Promise<{ file: Blob; diskName: string } | undefined> => {
  const diskName = crypto.randomUUID();
  try {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(diskFolders.prepared, { create: true });
    const handle = await folder.getFileHandle(diskName, { create: true });
    try {
      const access = await handle.createSyncAccessHandle();
      try {
        // On a disk that fills up it may write less than it was given, without a word.
        if (access.write(pixels) !== pixels.byteLength)
          throw new DOMException('The disk took only part of it', 'QuotaExceededError');
      } finally {
        access.close();
      }
      return { file: await handle.getFile(), diskName };
    } catch {
      await folder.removeEntry(diskName);
      return undefined;
    }
  } catch {
    return undefined;
  }
};
