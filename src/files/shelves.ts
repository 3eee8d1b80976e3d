/** Places in the browser that keep Blobs by key: the private disk, a database, or memory. */
import { diskFolders } from '../contract/disk.ts';
import { openStore } from './one-store.ts';
import { DiskSilent, privateDisk } from './private-disk.ts';

export interface Shelf {
  readonly place: 'private-disk' | 'database' | 'memory';
  /** Rejects with a QuotaExceededError when there is no room. */
  put(key: string, content: Blob): Promise<void>;
  get(key: string): Promise<Blob | undefined>;
  delete(key: string): Promise<void>;
  keys(): Promise<string[]>;
}

const isMissing = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'NotFoundError';

/** A folder of the origin private file system. @throws if this browser has none that can be written. */
export const openDiskShelf = async (folder: string): Promise<Shelf> => {
  const root = await privateDisk();
  const place = await root.getDirectoryHandle(folder, { create: true });
  if (!('createWritable' in FileSystemFileHandle.prototype))
    throw new DOMException('No way to write to the private disk here', 'NotSupportedError');
  return {
    place: 'private-disk',
    put: async (key, content) => {
      const handle = await place.getFileHandle(key, { create: true });
      const sink = await handle.createWritable();
      try {
        await sink.write(content);
        // Only closing replaces the file, so a copy that breaks off never looks whole.
        await sink.close();
      } catch (error) {
        await sink.abort().catch(() => {});
        // An earlier file is still whole; one that was only created is removed.
        const { size } = await handle.getFile().catch(() => ({ size: 0 }));
        if (size === 0) await place.removeEntry(key).catch(() => {});
        throw error;
      }
    },
    get: async (key) => {
      try {
        const file = await (await place.getFileHandle(key)).getFile();
        // A page that closed between creating and writing the file leaves an empty one.
        return file.size === 0 ? undefined : file;
      } catch (error) {
        if (isMissing(error)) return undefined;
        throw error;
      }
    },
    delete: (key) => place.removeEntry(key),
    keys: async () => {
      const keys: string[] = [];
      for await (const key of place.keys()) keys.push(key);
      return keys;
    },
  };
};

/** Bytes and type separately: a private window of WebKit stores these, but refuses a Blob. */
interface Kept {
  readonly type: string;
  readonly bytes: ArrayBuffer;
}

export const openDatabaseShelf = async (name: string): Promise<Shelf> => {
  const database = await openStore(name, 'blobs');
  return {
    place: 'database',
    put: async (key, content) => {
      const kept: Kept = { type: content.type, bytes: await content.arrayBuffer() };
      await database.put('blobs', kept, key);
    },
    get: async (key) => {
      // Earlier studios kept the Blob itself.
      const kept = (await database.get('blobs', key)) as Kept | Blob | undefined;
      return kept === undefined || kept instanceof Blob
        ? kept
        : new Blob([kept.bytes], { type: kept.type });
    },
    delete: (key) => database.delete('blobs', key),
    keys: async () => (await database.getAllKeys('blobs')).map(String),
  };
};

export const openMemoryShelf = (): Shelf => {
  const blobs = new Map<string, Blob>();
  return {
    place: 'memory',
    put: async (key, content) => void blobs.set(key, content),
    get: async (key) => blobs.get(key),
    delete: async (key) => void blobs.delete(key),
    keys: async () => [...blobs.keys()],
  };
};

/**
 * The most lasting place that this browser offers: private windows may refuse the disk or the database.
 * @throws DiskSilent: the next visit would not look in another place for what is kept there
 */
export const openBestShelf = async (): Promise<Shelf> => {
  for (const open of [
    () => openDiskShelf(diskFolders.frames),
    () => openDatabaseShelf('tiltloom-frames'),
  ]) {
    try {
      return await open();
    } catch (error) {
      if (error instanceof DiskSilent) throw error;
      // Try the next place.
    }
  }
  return openMemoryShelf();
};
