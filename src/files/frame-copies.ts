/** Copies frames from memory to the disk, and remembers the frames that did not fit there. */
import { StudioError, messageOf } from '../contract/errors.ts';
import type { Presence } from './picture-locks.ts';
import { DiskSilent } from './private-disk.ts';
import { isNoRoom } from './room.ts';
import type { Shelf } from './shelves.ts';

/** Runs at most `lanes` tasks at a time. */
const createLanes = (lanes: number) => {
  const waiting: (() => Promise<void>)[] = [];
  let running = 0;
  const next = (): void => {
    while (running < lanes && waiting.length > 0) {
      running += 1;
      void waiting
        .shift()?.()
        .finally(() => {
          running -= 1;
          next();
        });
    }
  };
  return <T>(task: () => Promise<T>): Promise<T> =>
    new Promise<T>((resolve, reject) => {
      waiting.push(() => task().then(resolve, reject));
      next();
    });
};

/** The person's own file may have been moved or deleted. */
const canBeRead = (content: Blob): Promise<boolean> =>
  content
    .slice(0, 1)
    .arrayBuffer()
    .then(
      () => true,
      () => false,
    );

export const thumbnailKey = (id: string) => `${id}.thumbnail`;

/** The error for a frame that could not be copied. */
const whyNotCopied = async (error: unknown, content: Blob, file: string): Promise<StudioError> => {
  if (error instanceof DiskSilent) return error;
  if (isNoRoom(error))
    return new StudioError(
      'no-room',
      `There is no room left on the browser's disk for ${file}. It can be used until this page is closed; free some room under Jobs, and it is kept after all.`,
      file,
    );
  if (!(await canBeRead(content)))
    return new StudioError(
      'file-gone',
      `"${file}" can no longer be read: it was moved, changed or deleted before the studio had copied it. Add the same file again, and it goes back to its place.`,
      file,
    );
  return new StudioError(
    'internal',
    `${file} could not be copied to the browser's disk, so it lasts only until this page is closed (${messageOf(error)}).`,
    file,
  );
};

/** @param memory frames and thumbnails by key, replaced by their copies on the disk. */
export const createFrameCopies = (
  memory: Map<string, Blob>,
  shelf: () => Promise<Shelf>,
  presence: Presence,
) => {
  /** By id: names of frames that are only in memory because the disk is full. */
  const homeless = new Map<string, string>();
  // Disks are no faster with more than two copies at a time.
  const inLane = createLanes(2);

  /** Under way. */
  const copying = new Set<Promise<void>>();

  const put = async (key: string, content: Blob, file: string): Promise<void> => {
    try {
      await (await shelf()).put(key, content);
    } catch (error) {
      throw await whyNotCopied(error, content, file);
    }
  };

  const copyIn = async (id: string, name: string): Promise<void> => {
    // Another page deletes pictures that no job names yet: take the lock before writing one.
    await presence.enter();
    try {
      for (const key of [thumbnailKey(id), id]) {
        const held = memory.get(key);
        if (held !== undefined) await put(key, held, name);
      }
    } catch (error) {
      // The frame was removed meanwhile and needs no copy.
      if (isNoRoom(error) && memory.has(id)) homeless.set(id, name);
      throw error;
    }
    homeless.delete(id);
    // From now on use the copy: the person's own file may be moved, changed or deleted.
    const copy = await (await shelf()).get(id);
    if (copy !== undefined && memory.has(id)) memory.set(id, copy);
  };

  return {
    /**
     * Takes a frame in. It can be opened at once; the promise resolves when the copy is on disk.
     * @throws StudioError `no-room`: the frame then lasts as long as the page. `file-gone`: the file can no
     *   longer be read.
     */
    keep: (id: string, name: string, file: Blob, thumbnail: Blob): Promise<void> => {
      memory.set(id, file);
      memory.set(thumbnailKey(id), thumbnail);
      const copy = inLane(() => copyIn(id, name));
      const done = copy.finally(() => copying.delete(done));
      copying.add(done);
      done.catch(() => undefined);
      return copy;
    },

    /** Resolves when every frame taken in so far is on the disk, or has failed to get there. */
    settled: async (): Promise<void> => {
      await Promise.allSettled(copying);
    },

    /** Names of the frames that did not fit on the disk. */
    unkept: (): string[] => [...homeless.values()],

    /** Retries the copies that did not fit. @returns names of the frames that still do not fit. */
    keepAgain: async (): Promise<string[]> => {
      const left: string[] = [];
      for (const [id, name] of [...homeless])
        await inLane(() => copyIn(id, name)).catch(() => left.push(name));
      return left;
    },

    /** Replaces a thumbnail, after a change of exposure. */
    keepThumbnail: (id: string, name: string, thumbnail: Blob): Promise<void> => {
      memory.set(thumbnailKey(id), thumbnail);
      return inLane(() => put(thumbnailKey(id), thumbnail, name));
    },

    /** A removed frame no longer waits for room. */
    forget: (id: string): void => {
      homeless.delete(id);
    },
  };
};
