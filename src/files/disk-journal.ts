/** The journal in the browser's database, and the upgrade from the database of version 1. */
import type { DBSchema, IDBPDatabase } from 'idb';
import { openDB } from 'idb';
import { restoreJob } from '../job/schema/migrate.ts';
import type { Addition, Journal, JournalEntry, KeptJobEntry } from './journal.ts';
import { listingOf } from './journal.ts';
import { newId } from './new-id.ts';

const databaseName = 'tiltloom-job';

interface JobSchema extends DBSchema {
  entries: { key: [string, number]; value: JournalEntry };
  list: { key: string; value: KeptJobEntry };
  aside: { key: string; value: unknown };
}
type JobDatabase = IDBPDatabase<JobSchema>;

/** Version 1 kept one job under one key, and what could not be read under other keys. */
const OLD_STORE = 'jobs';
const OLD_KEY = 'current';

interface Old {
  objectStore(name: string): {
    getAllKeys(): Promise<string[]>;
    getAll(): Promise<unknown[]>;
  };
  deleteObjectStore(name: string): void;
}

export interface Opening {
  readonly now: () => number;
  /** A page with an older studio blocks the database, or one with a newer studio needs it. */
  readonly onHeldUp: (message: string) => void;
  /** The database was deleted, or the browser closed it: the next use opens it again. */
  readonly onClosed: () => void;
}

export interface DiskJournal {
  readonly journal: Journal;
  /** The new id of the job that version 1 kept, if there was one. */
  readonly carriedOver: string | undefined;
}

const heldByOlder =
  'The studio is open in another tab from before it was renewed, and that tab holds the kept jobs. Close it or reload it; then this page goes on by itself.';
const wantedByNewer =
  'A newer studio is open in another tab. This page keeps nothing more: reload it to go on.';

const open = async ({ now, onHeldUp, onClosed }: Opening) => {
  let carriedOver: string | undefined;
  const database = await openDB<JobSchema>(databaseName, 2, {
    upgrade: (fresh, oldVersion, _newVersion, transaction) => {
      const entries = fresh.createObjectStore('entries', { keyPath: ['jobId', 'seq'] });
      const list = fresh.createObjectStore('list', { keyPath: 'id' });
      const aside = fresh.createObjectStore('aside');
      if (oldVersion < 1) return;
      const carryOver = async () => {
        const old = (transaction as unknown as Old).objectStore(OLD_STORE);
        const [keys, values] = await Promise.all([old.getAllKeys(), old.getAll()]);
        for (const [index, key] of keys.entries()) {
          const job = values[index];
          if (key !== OLD_KEY) {
            await aside.put(job, key);
            continue;
          }
          const id = newId();
          await entries.put({ jobId: id, seq: 1, at: now(), label: 'as it was kept', job });
          const restored = restoreJob(job);
          if (restored.ok) await list.put(listingOf(id, restored.job, now()));
          carriedOver = id;
        }
        (fresh as unknown as Old).deleteObjectStore(OLD_STORE);
      };
      // A failure aborts the upgrade, so the old database and its job stay as they were.
      carryOver().catch(() => transaction.abort());
    },
    blocked: () => onHeldUp(heldByOlder),
    blocking: (_current, _wanted, event) => {
      (event.target as IDBDatabase).close();
      // Whoever wants it at no version deletes it (Indexed Database API 3.0, "versionchange").
      if (event.newVersion === null) onClosed();
      else onHeldUp(wantedByNewer);
    },
    terminated: onClosed,
  });
  return { database, carriedOver };
};

const entriesUpTo = (id: string, to = Infinity): IDBKeyRange =>
  IDBKeyRange.bound([id, 0], [id, to]);

/**
 * Runs `work` in one transaction and resolves when that is on the disk. If `work` throws, nothing is written.
 */
const inOne = async <T>(
  database: JobDatabase,
  stores: ('entries' | 'list' | 'aside')[],
  work: (transaction: ReturnType<typeof begin>) => Promise<T>,
): Promise<T> => {
  const transaction = begin(database, stores);
  // It may fail before `work` ends; it is awaited below.
  transaction.done.catch(() => undefined);
  try {
    const result = await work(transaction);
    await transaction.done;
    return result;
  } catch (error) {
    try {
      transaction.abort();
    } catch {
      // It has already ended.
    }
    // Report why the transaction ended, not just that it did.
    const why: unknown = await transaction.done.then(
      () => error,
      (reason: unknown) => reason,
    );
    const isAbort = error instanceof DOMException && error.name === 'AbortError';
    throw isAbort ? why : error;
  }
};

const begin = (database: JobDatabase, stores: ('entries' | 'list' | 'aside')[]) =>
  database.transaction(stores, 'readwrite', { durability: 'strict' });

const journalOn = (database: JobDatabase): Journal => ({
  numbers: async (id) =>
    (await database.getAllKeys('entries', entriesUpTo(id))).map(([, seq]) => seq).reverse(),
  entry: (id, seq) => database.get('entries', [id, seq]),
  jobIds: async () => [...new Set((await database.getAllKeys('entries')).map(([id]) => id))],
  listings: () => database.getAll('list'),
  append: (id, make: (newest: number) => Addition) =>
    inOne(database, ['entries', 'list'], async (transaction) => {
      const entries = transaction.objectStore('entries');
      const newest = await entries.openKeyCursor(entriesUpTo(id), 'prev');
      const { entry, listing, trimTo } = make(newest?.key[1] ?? 0);
      await Promise.all([
        entries.put(entry),
        transaction.objectStore('list').put(listing),
        trimTo > 0 ? entries.delete(entriesUpTo(id, trimTo)) : undefined,
      ]);
    }),
  trim: (id, to) => database.delete('entries', entriesUpTo(id, to)),
  list: (id, change) =>
    inOne(database, ['list'], async (transaction) => {
      const list = transaction.objectStore('list');
      const next = change(await list.get(id));
      if (next !== undefined) await list.put(next);
    }),
  setAside: (document, keptAs, entry) =>
    inOne(database, ['entries', 'aside'], async (transaction) => {
      await transaction.objectStore('aside').put(document, keptAs);
      if (entry !== undefined)
        await transaction.objectStore('entries').delete([entry.jobId, entry.seq]);
    }),
  asides: () => database.getAll('aside'),
  end: (id, may) =>
    inOne(database, ['entries', 'list'], async (transaction) => {
      const listing = await transaction.objectStore('list').get(id);
      if (listing !== undefined && !may(listing)) return false;
      await transaction.objectStore('entries').delete(entriesUpTo(id));
      await transaction.objectStore('list').delete(id);
      return true;
    }),
  close: () => database.close(),
});

/** Rejects with what the browser said. */
export const openDiskJournal = async (opening: Opening): Promise<DiskJournal> => {
  if (typeof indexedDB === 'undefined') throw new Error('this browser gives the page no database');
  const { database, carriedOver } = await open(opening);
  return { journal: journalOn(database), carriedOver };
};
