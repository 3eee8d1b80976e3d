/** A browser that keeps jobs, in memory: its database, its storage, and the pages that use them. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, vi } from 'vitest';
import { createJobStore } from '../../src/files/job-store.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';

type Store = ReturnType<typeof createJobStore>;
const opened: Store[] = [];
let clock = Date.parse('2026-11-25T12:00:00Z');

export const passDays = (days: number) => (clock += days * 24 * 3600 * 1000);

/** A page of the studio. */
export const page = () => {
  const store = createJobStore({ now: () => (clock += 1000) });
  opened.push(store);
  return store;
};

export const named = (name: string): Job => ({ ...newJob(), name });
export const withFrames = (job: Job, ...ids: string[]): Job => ({
  ...job,
  frames: ids.map((id) => ({
    id,
    name: `${id}.png`,
    byteLength: 1000,
    widthPx: 10,
    heightPx: 10,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.5,
  })),
});
export const step = (label: string) => ({ label });

export const raw = async <T>(
  work: (database: Awaited<ReturnType<typeof openDB>>) => Promise<T>,
) => {
  const database = await openDB('tiltloom-job', 2);
  const result = await work(database);
  database.close();
  return result;
};
export const tear = (jobId: string, seq: number) =>
  raw((database) =>
    database.put('entries', { jobId, seq, at: 0, label: 'torn', job: { torn: 1 } }),
  );
export const asides = () => raw((database) => database.getAll('aside') as Promise<unknown[]>);

/** What a page finds after a reload. */
export const found = async (id: string) => {
  const loaded = await page().openJob(id);
  return loaded.kind === 'job' ? loaded.job : loaded.kind;
};

/** Enough of it: keys are own properties, as a browser's are. */
const memoryStorage = (): Record<string, unknown> =>
  Object.create({
    getItem(this: Record<string, string>, key: string) {
      return Object.hasOwn(this, key) ? this[key] : null;
    },
    setItem(this: Record<string, string>, key: string, value: string) {
      this[key] = value;
    },
    removeItem(this: Record<string, string>, key: string) {
      Reflect.deleteProperty(this, key);
    },
  }) as Record<string, unknown>;

/** Each test of a file begins with a browser that keeps nothing yet. */
export const beginEmpty = () => {
  beforeEach(() => {
    vi.stubGlobal('indexedDB', new IDBFactory());
    vi.stubGlobal('localStorage', memoryStorage());
  });
  afterEach(async () => {
    vi.restoreAllMocks();
    await Promise.all(opened.splice(0).map((store) => store.close()));
    vi.unstubAllGlobals();
  });
};
