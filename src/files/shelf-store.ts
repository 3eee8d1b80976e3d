/**
 * The shelves in the browser's database: one record under one key, shared by the studio's tabs. What cannot be
 * read, the whole record or single entries, is moved to a key of its own and never deleted. Without a
 * database the shelves last as long as the page.
 */
import type { IDBPDatabase } from 'idb';
import { messageOf } from '../contract/errors.ts';
import type { Shelves } from '../materials/shelves.ts';
import type { LeftOut } from '../materials/shelf-file.ts';
import { carryOver, readShelves } from '../materials/shelf-file.ts';
import { createTurn } from './in-turn.ts';
import { openStore } from './one-store.ts';

const name = 'tiltloom-shelves';
const shelf = 'shelves';
const current = 'current';
/** The one thing that tabs say to each other of the shelves. */
const CHANGED = 'changed';

type Now = () => Date;

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

/** In one transaction, so that no other tab writes between reading and writing. */
const write = async (
  to: IDBPDatabase,
  before: Shelves,
  after: Shelves,
  now: Now,
): Promise<Shelves> => {
  const transaction = to.transaction(shelf, 'readwrite');
  const stored: unknown = await transaction.store.get(current);
  const read = readShelves(stored);
  const next = read.ok ? carryOver(before, after, read.shelves) : after;
  const puts = [transaction.store.put(next, current)];
  if (stored !== undefined && (!read.ok || read.leftOut.length > 0))
    puts.push(transaction.store.put(stored, `set aside ${now().toISOString()}`));
  transaction.commit();
  await Promise.all([...puts, transaction.done]);
  return next;
};

/** Reads what is stored and sets aside what cannot be read. */
const look = async (from: IDBPDatabase, now: Now): Promise<KeptShelves> => {
  const stored: unknown = await from.get(shelf, current);
  if (stored === undefined) return { kind: 'none' };
  const read = readShelves(stored);
  const keptAs = `set aside ${now().toISOString()}`;
  if (!read.ok) {
    await from.put(shelf, stored, keptAs);
    return { kind: 'damaged', reason: read.reason, keptAs };
  }
  const { shelves, leftOut } = read;
  if (leftOut.length > 0) {
    // In one transaction: damaged entries leave the record only when they are stored elsewhere.
    const transaction = from.transaction(shelf, 'readwrite');
    await Promise.all([
      transaction.store.put(leftOut, keptAs),
      transaction.store.put(shelves, current),
      transaction.done,
    ]);
  }
  return { kind: 'shelves', shelves, leftOut, keptAs };
};

/** `now`: for tests. */
export const openShelfStore = (now: Now = () => new Date()) => {
  /** Stays open as long as the page; undefined until loaded, and without a database. */
  let database: IDBPDatabase | undefined;
  const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(name);
  /** Reads and writes one after the other, so that none sees half of another. */
  const inTurn = createTurn();
  let saving = 0;

  return {
    /** Never rejects. */
    load: async (): Promise<KeptShelves> => {
      try {
        if (typeof indexedDB === 'undefined')
          throw new Error('this browser gives the page no database');
        database = await openStore(name, shelf);
        return await look(database, now);
      } catch (error) {
        database = undefined;
        return { kind: 'memory-only', reason: messageOf(error) };
      }
    },

    /**
     * Makes the change from `before` to `after` in the stored shelves. Resolves with what is stored then, which
     * includes the changes of other tabs. Rejects with what the browser said.
     */
    save: (before: Shelves, after: Shelves): Promise<Shelves> => {
      saving += 1;
      return inTurn(async () => {
        try {
          if (database === undefined) return after;
          const written = await write(database, before, after, now);
          channel?.postMessage(CHANGED);
          return written;
        } finally {
          saving -= 1;
        }
      });
    },

    /** Calls back with the stored shelves whenever another tab has changed them. */
    onChangedElsewhere: (lay: (stored: Shelves) => void): void => {
      channel?.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
        if (data !== CHANGED) return;
        void inTurn(async () => {
          const read = readShelves(await database?.get(shelf, current).catch(() => undefined));
          // A save under way in this tab will bring the other tab's change.
          if (read.ok && saving === 0) lay(read.shelves);
        });
      });
    },

    /** For tests, where many pages live in one. */
    close: (): void => {
      channel?.close();
      database?.close();
    },
  };
};
