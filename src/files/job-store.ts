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
/** Where the last change waits when the page goes before the database has it. */
const lastWords = 'tiltloom-job-last-words';

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

const takeLastWords = (): unknown => {
  try {
    const text = localStorage.getItem(lastWords);
    const stored: unknown = text === null ? undefined : JSON.parse(text);
    return restoreJob(stored).ok ? stored : undefined;
  } catch {
    return undefined;
  }
};

/** Kept open for the page's life; undefined until loaded, or where there is none. */
let database: IDBPDatabase | undefined;

export const loadJob = async (now: () => Date = () => new Date()): Promise<KeptJob> => {
  try {
    if (typeof indexedDB === 'undefined')
      throw new Error('this browser gives the page no database');
    database = await open();
    const stored = takeLastWords() ?? ((await database.get(shelf, current)) as unknown);
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
  if (database === undefined) return;
  await database.put(shelf, job, current);
  try {
    localStorage.removeItem(lastWords);
  } catch {
    // Then nothing was written there either.
  }
};

/**
 * For a page that is about to go: a database's write does not outlive the page that asked for it, so
 * the job is also left where writing is done at once. The next visit takes it from there.
 */
export const saveJobAtOnce = async (job: Job): Promise<void> => {
  try {
    localStorage.setItem(lastWords, JSON.stringify(job));
  } catch {
    // No room or no permission: the database may still make it.
  }
  await saveJob(job);
};
