/**
 * The job, kept in the browser's database across reloads. One record under one key. A record that
 * cannot be read is moved to a key of its own and never deleted. Where the browser gives no database
 * (a private window, storage refused) everything still works, for as long as the page is open.
 */
import type { IDBPDatabase } from 'idb';
import { openDB } from 'idb';
import type { Job } from '../job/job.ts';
import { restoreJob } from '../job/migrate.ts';

const databaseName = 'tiltloom-job';
const shelf = 'jobs';
const current = 'current';

export type KeptJob =
  | { readonly kind: 'none' }
  | { readonly kind: 'job'; readonly job: Job }
  | { readonly kind: 'damaged'; readonly reason: string; readonly keptAs: string }
  | { readonly kind: 'memory-only'; readonly reason: string };

const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const open = () =>
  openDB(databaseName, 1, {
    upgrade: (database) => {
      database.createObjectStore(shelf);
    },
  });

/** Kept open for the page's life; undefined until loaded, or where there is none. */
let database: IDBPDatabase | undefined;

export const loadJob = async (now: () => Date = () => new Date()): Promise<KeptJob> => {
  try {
    if (typeof indexedDB === 'undefined')
      throw new Error('this browser gives the page no database');
    database = await open();
    const stored: unknown = await database.get(shelf, current);
    if (stored === undefined) return { kind: 'none' };
    const restored = restoreJob(stored);
    if (restored.ok) return { kind: 'job', job: restored.job };
    const keptAs = `set aside ${now().toISOString()}`;
    await database.put(shelf, stored, keptAs);
    return { kind: 'damaged', reason: restored.reason, keptAs };
  } catch (error) {
    database = undefined;
    return { kind: 'memory-only', reason: said(error) };
  }
};

/** Resolves when the job is on the disk. Throws what the browser said when it could not be kept. */
export const saveJob = async (job: Job): Promise<void> => {
  await database?.put(shelf, job, current);
};
