/** Writes prepared frames to the browser's private disk, so that a poster's frames need no memory. */
import { diskFolders } from '../src/contract/disk.ts';

const PATIENCE_MS = 8000;

/** A disk that does not answer is as good as none. */
const answering = <T>(answer: Promise<T>): Promise<T> =>
  Promise.race([
    answer,
    new Promise<never>((_resolve, reject) => {
      setTimeout(() => reject(new Error('The private disk does not answer')), PATIENCE_MS);
    }),
  ]);

/**
 * Writes the pixels to a file of their own and returns it as a Blob that is read from the disk. Undefined if there is no
 * private disk or it is full: the pixels then stay in memory.
 */
export const writePrepared = async (
  pixels: Uint16Array<ArrayBuffer>,
): Promise<{ file: Blob; diskName: string } | undefined> => {
  const diskName = crypto.randomUUID();
  try {
    const folder = await (
      await answering(navigator.storage.getDirectory())
    ).getDirectoryHandle(diskFolders.prepared, { create: true });
    const handle = await folder.getFileHandle(diskName, { create: true });
    try {
      const access = await handle.createSyncAccessHandle();
      try {
        // On a full disk it may write less than it was given, without an error.
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
