/**
 * The shelves, kept in the browser's database across reloads. One record under one key. What cannot be
 * read, the whole or single entries, is moved to a key of its own and never deleted. Where the browser
 * gives no database everything still works, for as long as the page is open.
 */
import type { IDBPDatabase } from 'idb';
import { openDB } from 'idb';
import type { Shelves } from '../job/shelf.ts';
import type { LeftOut } from '../job/shelf-file.ts';
import { readShelves } from '../job/shelf-file.ts';

const shelf = 'shelves';
const current = 'current';

export type KeptShelves =
  | { readonly kind: 'none' }
  | {
      readonly kind: 'shelves';
      readonly shelves: Shelves;
      /** Entries that could not be read; they lie under `keptAs`. */
      readonly leftOut: readonly LeftOut[];
      readonly keptAs: string;
    }
  | { readonly kind: 'damaged'; readonly reason: string; readonly keptAs: string }
  | { readonly kind: 'memory-only'; readonly reason: string };

/** Kept open for the page's life; undefined until loaded, or where there is none. */
let database: IDBPDatabase | undefined;

/** The record is on its way to the disk once this is called, even if the page goes. */
const put = async (to: IDBPDatabase, entries: readonly (readonly [string, unknown])[]) => {
  const transaction = to.transaction(shelf, 'readwrite');
  const puts = entries.map(([key, value]) => transaction.store.put(value, key));
  transaction.commit();
  await Promise.all([...puts, transaction.done]);
};

/** Never rejects. */
export const loadShelves = async (now: () => Date = () => new Date()): Promise<KeptShelves> => {
  try {
    if (typeof indexedDB === 'undefined')
      throw new Error('this browser gives the page no database');
    const opened = await openDB('tiltloom-shelves', 1, {
      upgrade: (fresh) => {
        fresh.createObjectStore(shelf);
      },
    });
    database = opened;
    const stored: unknown = await opened.get(shelf, current);
    if (stored === undefined) return { kind: 'none' };
    const read = readShelves(stored);
    const keptAs = `set aside ${now().toISOString()}`;
    if (!read.ok) {
      await put(opened, [[keptAs, stored]]);
      return { kind: 'damaged', reason: read.reason, keptAs };
    }
    const { shelves, leftOut } = read;
    // Both at once: the damaged entries leave the record only when they lie elsewhere.
    if (leftOut.length > 0)
      await put(opened, [
        [keptAs, leftOut],
        [current, shelves],
      ]);
    return { kind: 'shelves', shelves, leftOut, keptAs };
  } catch (error) {
    database = undefined;
    return {
      kind: 'memory-only',
      reason: error instanceof Error ? error.message : String(error),
    };
  }
};

/** Resolves when the shelves are on the disk. Rejects with what the browser said when they cannot be. */
export const saveShelves = async (shelves: Shelves): Promise<void> => {
  if (database !== undefined) await put(database, [[current, shelves]]);
};
