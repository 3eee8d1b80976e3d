/**
 * The frames' original files and thumbnails, by frame id. A frame can be used at once from memory. A copy goes to
 * the browser's private disk in the background, so that the job survives a reload and changes to the person's own
 * files. Without a private disk the copy goes to a database, and without that frames stay in memory.
 */
import { StudioError } from '../contract/errors.ts';
import { nameInText } from '../core/names/shown.ts';
import { createFrameCopies, thumbnailKey } from './frame-copies.ts';
import type { Presence } from './picture-locks.ts';
import { createPresence } from './picture-locks.ts';
import type { Shelf } from './shelves.ts';
import { openBestShelf } from './shelves.ts';

type FramePlace = Shelf['place'];

/** Both arguments are for tests. */
export const createFrameStore = (
  openShelf: () => Promise<Shelf> = openBestShelf,
  presence: Presence = createPresence(),
) => {
  const memory = new Map<string, Blob>();
  let opened: Promise<Shelf> | undefined;
  /** A disk that does not answer is asked again by whoever needs it next. */
  const shelf = () =>
    (opened ??= openShelf().catch((error: unknown) => {
      opened = undefined;
      throw error;
    }));

  const { forget, ...copies } = createFrameCopies(memory, shelf, presence);

  return {
    /** Where originals are kept. `memory`: they are lost with the page. */
    place: async (): Promise<FramePlace> => (await shelf()).place,

    ...copies,

    /** The original, if it is in memory. */
    fileOf: (id: string): Blob | undefined => memory.get(id),

    /** @throws StudioError `file-gone` if neither memory nor disk has it; DiskSilent. */
    open: async (id: string, name = 'this frame'): Promise<Blob> => {
      const held = memory.get(id);
      if (held !== undefined) return held;
      const stored = await (await shelf()).get(id).catch(() => undefined);
      if (stored === undefined)
        throw new StudioError(
          'file-gone',
          `The browser no longer holds ${nameInText(name)}: its site data was cleared, or the page was closed before it had been copied. Remove it and add the file again.`,
          name,
        );
      memory.set(id, stored);
      return stored;
    },

    /** The ids whose original is neither in memory nor on the disk. */
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
          forget(key);
          await store.delete(key).catch(() => undefined);
        }
    },

    openThumbnail: async (id: string): Promise<Blob | undefined> =>
      memory.get(thumbnailKey(id)) ??
      (await (await shelf()).get(thumbnailKey(id)).catch(() => undefined)),

    /**
     * Deletes pictures whose id is not among `keptIds`. Only at the start: later, undo may bring a removed frame back.
     * Does nothing while another page of the studio is open, which may need them; a page that opens meanwhile
     * waits before it stores frames.
     */
    sweep: (keptIds: () => Promise<Iterable<string>>): Promise<void> =>
      presence.alone(async () => {
        const kept = new Set<string>();
        // Read the ids under the lock, so that they include what a page stored before it closed.
        for (const id of await keptIds()) kept.add(id).add(thumbnailKey(id));
        const store = await shelf();
        for (const key of await store.keys())
          if (!kept.has(key) && !memory.has(key)) await store.delete(key);
      }),
  };
};

export type FrameStore = ReturnType<typeof createFrameStore>;
