/**
 * The frames' original files and thumbnails, by frame id. A frame can be used at once from memory;
 * a copy goes to the browser's private disk behind it, so that the job still stands after a reload
 * and whatever becomes of the person's own files. Where there is no private disk a database in the
 * browser serves, and failing that memory alone.
 */
import { StudioError } from '../contract/errors.ts';
import type { Presence } from './picture-locks.ts';
import { createPresence } from './picture-locks.ts';
import { isNoRoom } from './room.ts';
import type { Shelf } from './shelves.ts';
import { openBestShelf } from './shelves.ts';

export type FramePlace = Shelf['place'];

/** Runs tasks two at a time: disks are no faster with more, and memory is not held for longer. */
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

/** A person's file is read only when it is needed; until then it can go. */
const canBeRead = (content: Blob): Promise<boolean> =>
  content
    .slice(0, 1)
    .arrayBuffer()
    .then(
      () => true,
      () => false,
    );

const thumbnailKey = (id: string) => `${id}.thumbnail`;

/** Both arguments are for tests. */
export const createFrameStore = (
  openShelf: () => Promise<Shelf> = openBestShelf,
  presence: Presence = createPresence(),
) => {
  const memory = new Map<string, Blob>();
  /** Names of frames that are in memory alone because their copy found no room, by id. */
  const homeless = new Map<string, string>();
  const inLane = createLanes(2);
  let opened: Promise<Shelf> | undefined;
  const shelf = () => (opened ??= openShelf());

  const put = async (key: string, content: Blob, file: string): Promise<void> => {
    try {
      await (await shelf()).put(key, content);
    } catch (error) {
      if (isNoRoom(error))
        throw new StudioError(
          'no-room',
          `There is no room left on the browser's disk for ${file}. It can be used until this page is closed; free some room under Jobs, and it is kept after all.`,
          file,
        );
      if (!(await canBeRead(content)))
        throw new StudioError(
          'file-gone',
          `"${file}" can no longer be read: it was moved, changed or deleted before the studio had copied it. Add the same file again, and it goes back to its place.`,
          file,
        );
      throw new StudioError(
        'internal',
        `${file} could not be copied to the browser's disk, so it lasts only until this page is closed (${error instanceof Error ? error.message : String(error)}).`,
        file,
      );
    }
  };

  const copyIn = async (id: string, name: string): Promise<void> => {
    // What another page finds now that no job names, it takes for nobody's.
    await presence.enter();
    try {
      for (const key of [thumbnailKey(id), id]) {
        const held = memory.get(key);
        if (held !== undefined) await put(key, held, name);
      }
    } catch (error) {
      // Removed meanwhile, it needs none.
      if (isNoRoom(error) && memory.has(id)) homeless.set(id, name);
      throw error;
    }
    homeless.delete(id);
    // From here on the copy serves: the person's own file may be moved, changed or deleted.
    const copy = await (await shelf()).get(id);
    if (copy !== undefined && memory.has(id)) memory.set(id, copy);
  };

  return {
    /** Where originals are kept. `memory`: they are lost with the page, which the person should know. */
    place: async (): Promise<FramePlace> => (await shelf()).place,

    /**
     * Takes a frame in. It can be opened at once; the promise resolves when the copy is on disk.
     * @throws StudioError `no-room` naming the file; the frame then lasts as long as the page.
     *   `file-gone` when the file cannot be read any more.
     */
    keep: (id: string, name: string, file: Blob, thumbnail: Blob): Promise<void> => {
      memory.set(id, file);
      memory.set(thumbnailKey(id), thumbnail);
      return inLane(() => copyIn(id, name));
    },

    /** Names of the frames whose copy found no room. */
    unkept: (): string[] => [...homeless.values()],

    /** Tries once more to copy what found no room. Names of what finds none now either. */
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

    /** The original as far as it is in memory. */
    fileOf: (id: string): Blob | undefined => memory.get(id),

    /** @throws StudioError `file-gone` when neither memory nor disk has it. */
    open: async (id: string, name = 'this frame'): Promise<Blob> => {
      const held = memory.get(id);
      if (held !== undefined) return held;
      const stored = await (await shelf()).get(id).catch(() => undefined);
      if (stored === undefined)
        throw new StudioError(
          'file-gone',
          `The browser no longer holds ${name}: its site data was cleared, or the page was closed before it had been copied. Remove it and add the file again.`,
          name,
        );
      memory.set(id, stored);
      return stored;
    },

    /** Those of the ids whose original is nowhere: not in memory, not on the disk. */
    missing: async (ids: readonly string[]): Promise<string[]> => {
      const store = await shelf();
      const gone: string[] = [];
      for (const id of ids)
        if (!memory.has(id) && (await store.get(id).catch(() => undefined)) === undefined)
          gone.push(id);
      return gone;
    },

    /** Deletes frames for good, whether or not other pages are open. */
    remove: async (ids: Iterable<string>): Promise<void> => {
      const store = await shelf();
      for (const id of ids)
        for (const key of [thumbnailKey(id), id]) {
          memory.delete(key);
          homeless.delete(key);
          await store.delete(key).catch(() => undefined);
        }
    },

    openThumbnail: async (id: string): Promise<Blob | undefined> =>
      memory.get(thumbnailKey(id)) ??
      (await (await shelf()).get(thumbnailKey(id)).catch(() => undefined)),

    /**
     * Deletes what belongs to none of the ids that `keptIds` gives. On start-up only: later, undo may
     * bring a removed frame back. Does nothing while another page of the studio is open, whose frames
     * they may be; one that opens meanwhile waits with laying frames down.
     */
    sweep: (keptIds: () => Promise<Iterable<string>>): Promise<void> =>
      presence.alone(async () => {
        const kept = new Set<string>();
        // Asked for only now: what a page that has gone since had kept is among them.
        for (const id of await keptIds()) kept.add(id).add(thumbnailKey(id));
        const store = await shelf();
        for (const key of await store.keys())
          if (!kept.has(key) && !memory.has(key)) await store.delete(key);
      }),
  };
};

export type FrameStore = ReturnType<typeof createFrameStore>;
