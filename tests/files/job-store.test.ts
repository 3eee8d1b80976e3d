/** Kept jobs over an IndexedDB in memory: reloads, the step from version 1, torn entries, two tabs. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createJobStore, Overtaken } from '../../src/files/job-store.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';

type Store = ReturnType<typeof createJobStore>;
const opened: Store[] = [];
let clock = Date.parse('2026-11-25T12:00:00Z');

/** A page of the studio. */
const page = () => {
  const store = createJobStore({ now: () => (clock += 1000) });
  opened.push(store);
  return store;
};

const named = (name: string): Job => ({ ...newJob(), name });
const withFrames = (job: Job, ...ids: string[]): Job => ({
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
const step = (label: string) => ({ label });

const raw = async <T>(work: (database: Awaited<ReturnType<typeof openDB>>) => Promise<T>) => {
  const database = await openDB('tiltloom-job', 2);
  const result = await work(database);
  database.close();
  return result;
};
const tear = (jobId: string, seq: number) =>
  raw((database) =>
    database.put('entries', { jobId, seq, at: 0, label: 'torn', job: { torn: 1 } }),
  );
const asides = () => raw((database) => database.getAll('aside') as Promise<unknown[]>);

/** What a page finds after a reload. */
const found = async (id: string) => {
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

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
  vi.stubGlobal('localStorage', memoryStorage());
});
afterEach(async () => {
  vi.restoreAllMocks();
  await Promise.all(opened.splice(0).map((store) => store.close()));
  vi.unstubAllGlobals();
});

describe('jobs', () => {
  test('are listed newest first, and found again by a new page', async () => {
    const store = page();
    expect(await store.listJobs()).toEqual([]);
    const gull = await store.createJob(withFrames(named('Gull'), 'a', 'b', 'c'));
    const heron = await store.createJob(named('Heron'));
    expect((await page().listJobs()).map(({ name }) => name)).toEqual(['Heron', 'Gull']);
    await store.saveJob(gull, withFrames(named('Gull in flight'), 'a', 'b', 'c'));
    expect(await page().listJobs()).toMatchObject([
      { id: gull, name: 'Gull in flight', frameCount: 3, pictureId: 'b' },
      { id: heron, name: 'Heron', frameCount: 0 },
    ]);
    expect(await found(gull)).toMatchObject({ name: 'Gull in flight' });
    expect(await found('nobody')).toBe('none');
  });

  test('are copied under a name of their own, and each goes its own way', async () => {
    const store = page();
    const first = await store.createJob(withFrames(named('Gull'), 'a'));
    const copy = (await store.copyJob(first)) ?? '';
    await store.saveJob(copy, named('Another'));
    expect(await found(first)).toMatchObject({ name: 'Gull', frames: [{ id: 'a' }] });
    expect((await store.listJobs()).map(({ name }) => name)).toEqual(['Another', 'Gull']);
    expect(await store.copyJob('nobody')).toBeUndefined();
  });

  test('deleted lie in the bin, come back whole, and go for good when it is emptied', async () => {
    const store = page();
    const [gull, heron] = [
      await store.createJob(named('Gull')),
      await store.createJob(named('Heron')),
    ];
    await store.deleteJob(gull);
    expect((await store.listJobs()).map(({ id }) => id)).toEqual([heron]);
    await store.emptyBin();
    expect((await store.listBin()).map(({ id }) => id)).toEqual([gull]);
    await store.bringBack(gull);
    expect(await found(gull)).toMatchObject({ name: 'Gull' });
    await store.deleteJob(gull);
    expect(await store.endJob(gull, true)).toBe(true);
    expect(await store.listBin()).toEqual([]);
    expect(await found(gull)).toBe('none');
    await store.deleteJob(heron);
    clock += 8 * 24 * 3600 * 1000;
    await store.emptyBin();
    expect(await store.listBin()).toEqual([]);
  });

  test('brought back in another tab are not ended by one that still sees them in the bin', async () => {
    const [here, there] = [page(), page()];
    const id = await here.createJob(named('Gull'));
    await here.deleteJob(id);
    await there.bringBack(id);
    expect(await here.endJob(id, true)).toBe(false);
    expect(await found(id)).toMatchObject({ name: 'Gull' });
    expect(await here.endJob(id, false)).toBe(true);
    expect(await found(id)).toBe('none');
  });

  test('are ended for good on a disk that takes nothing more', async () => {
    const store = page();
    const id = await store.createJob(named('Gull'));
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    expect(await store.endJob(id, false)).toBe(true);
    expect(await store.listJobs()).toEqual([]);
  });

  test('whose listing was lost are listed again', async () => {
    const id = await page().createJob(named('Gull'));
    await raw((database) => database.clear('list'));
    expect(await page().listJobs()).toMatchObject([{ id, name: 'Gull' }]);
  });

  test('live in memory where there is no database, and the reason is told', async () => {
    vi.stubGlobal('indexedDB', undefined);
    const store = page();
    expect(await store.whyMemoryOnly()).toBe('this browser gives the page no database');
    const id = await store.createJob(named('Gull'));
    await store.saveJob(id, named('Gull in flight'), step('job name'));
    expect(await store.openJob(id)).toMatchObject({ kind: 'job', job: { name: 'Gull in flight' } });
    expect(await store.loadPast(id)).toMatchObject([
      { label: 'job name', before: { name: 'Gull' } },
    ]);
    expect(await store.listJobs()).toMatchObject([{ name: 'Gull in flight' }]);
  });
});

describe('the way back', () => {
  test('stands after a reload, without what was undone', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await store.saveJob(id, named('two'), step('to two'));
    await store.saveJob(id, named('three'), step('to three'));
    await store.saveJob(id, named('two'), { label: 'undoing to three', undone: true });
    await store.saveJob(id, named('four'), step('to four'));
    expect((await page().loadPast(id)).map(({ label, before }) => [label, before.name])).toEqual([
      ['to two', 'one'],
      ['to four', 'two'],
    ]);
  });

  test('is thirty states long and no longer', async () => {
    const store = page();
    const id = await store.createJob(named('0'));
    for (let at = 1; at <= 40; at += 1) await store.saveJob(id, named(`${at}`), step(`to ${at}`));
    const past = await page().loadPast(id);
    expect(past).toHaveLength(29);
    expect(past[0]).toMatchObject({ label: 'to 12', before: { name: '11' } });
    expect(await found(id)).toMatchObject({ name: '40' });
  });
});

describe('from version 1', () => {
  const storeOld = async (records: Record<string, unknown>) => {
    const database = await openDB('tiltloom-job', 1, {
      upgrade: (fresh) => void fresh.createObjectStore('jobs'),
    });
    for (const [key, value] of Object.entries(records)) await database.put('jobs', value, key);
    database.close();
  };

  test('the job comes along, and what had been set aside', async () => {
    await storeOld({ current: named('Gull'), 'set aside 2026-11-01': { old: true } });
    const [entry] = await page().listJobs();
    expect(entry).toMatchObject({ name: 'Gull' });
    expect(await found(entry?.id ?? '')).toEqual(named('Gull'));
    expect(await asides()).toEqual([{ old: true }]);
  });

  test('with the last words that its page left', async () => {
    await storeOld({ current: named('Gull') });
    localStorage.setItem('tiltloom-job-last-words', JSON.stringify(named('Gull in flight')));
    const [entry] = await page().listJobs();
    expect(await found(entry?.id ?? '')).toMatchObject({ name: 'Gull in flight' });
  });

  test('a job that cannot be read is told of and set aside, not lost', async () => {
    await storeOld({ current: { version: 1, name: 7 } });
    const database = page();
    const jobs = await database.listJobs();
    expect(jobs).toEqual([]);
    expect(await asides()).toEqual([{ version: 1, name: 7 }]);
  });

  test('an empty database is an empty list', async () => {
    await storeOld({});
    expect(await page().listJobs()).toEqual([]);
  });
});

describe('a torn entry', () => {
  test('is set aside and the one before is opened, with the reason', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await store.saveJob(id, named('two'));
    await tear(id, 3);
    const loaded = await page().openJob(id);
    expect(loaded).toMatchObject({ kind: 'job', job: { name: 'two' }, seq: 2 });
    expect(loaded.kind === 'job' && loaded.setAside[0]?.reason).toContain('which version');
    expect(await asides()).toEqual([{ torn: 1 }]);
    // And the next state finds its place.
    const later = page();
    await later.openJob(id);
    await later.saveJob(id, named('three'));
    expect(await found(id)).toMatchObject({ name: 'three' });
  });

  test('of a job with no other leaves nothing to open, and everything on the disk', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await tear(id, 1);
    expect(await page().openJob(id)).toMatchObject({ kind: 'damaged' });
    expect(await asides()).toEqual([{ torn: 1 }]);
  });

  test('in the middle is passed over by the way back', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await store.saveJob(id, named('two'), step('to two'));
    await store.saveJob(id, named('three'), step('to three'));
    await tear(id, 2);
    expect(await page().loadPast(id)).toMatchObject([
      { label: 'to three', before: { name: 'one' } },
    ]);
  });
});

describe('two tabs on one job', () => {
  test('the one that has not seen the newest state writes nothing', async () => {
    const [here, there] = [page(), page()];
    const id = await here.createJob(named('one'));
    await there.openJob(id);
    await here.saveJob(id, named('from here'));
    await expect(there.saveJob(id, named('from there'))).rejects.toBeInstanceOf(Overtaken);
    expect(await found(id)).toMatchObject({ name: 'from here' });
    // Having seen it, it may.
    await there.openJob(id);
    await there.saveJob(id, named('from there'));
    expect(await found(id)).toMatchObject({ name: 'from there' });
  });

  test('one page never overtakes itself, however quickly it writes', async () => {
    const store = page();
    const id = await store.createJob(named('0'));
    await Promise.all(Array.from({ length: 20 }, (_, at) => store.saveJob(id, named(`${at + 1}`))));
    expect(await found(id)).toMatchObject({ name: '20' });
  });
});

describe('last words', () => {
  const wordsOf = (id: string) => localStorage.getItem(`tiltloom-job-last-words:${id}`);

  test('stand for every change until it is on the disk', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    const writing = store.saveJob(id, named('two'), step('to two'));
    expect(JSON.parse(wordsOf(id) ?? '{}')).toMatchObject({ after: 1, job: { name: 'two' } });
    await writing;
    expect(wordsOf(id)).toBeNull();
  });

  test('left while the state before them was on its way are no later for it', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    // The first of both comes to the disk, the page goes before the second does.
    const first = store.saveJob(id, named('two'), step('to two'));
    const second = store.saveJob(id, named('three'), step('to three'));
    await first;
    expect(JSON.parse(wordsOf(id) ?? '{}')).toMatchObject({ after: 2, job: { name: 'three' } });
    const words = wordsOf(id) ?? '';
    await second;
    expect(wordsOf(id)).toBeNull();
    await raw((database) => database.delete('entries', [id, 3]));
    localStorage.setItem(`tiltloom-job-last-words:${id}`, words);
    expect(await found(id)).toMatchObject({ name: 'three' });
    expect(await asides()).toEqual([]);
  });

  test('that find no room when the job is opened again are what is opened', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    await expect(store.saveJob(id, named('two'), step('to two'))).rejects.toThrow('full');
    const next = page();
    expect(await next.openJob(id)).toMatchObject({
      job: { name: 'one' },
      toKeep: { label: 'to two', job: { name: 'two' } },
    });
    put.mockRestore();
    await next.saveJob(id, named('two'), step('to two'));
    expect(await found(id)).toMatchObject({ name: 'two' });
    expect(wordsOf(id)).toBeNull();
  });

  test('of a page that went before the database had them are found by the next', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementationOnce(() => {
      throw new DOMException('The page is gone', 'InvalidStateError');
    });
    await expect(store.saveJob(id, named('two'), step('to two'))).rejects.toThrow('gone');
    expect(await found(id)).toMatchObject({ name: 'two' });
    expect(await found(id)).toMatchObject({ name: 'two' });
  });

  test('that the database has as well are not taken twice', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await store.saveJob(id, named('two'), step('to two'));
    localStorage.setItem(
      `tiltloom-job-last-words:${id}`,
      JSON.stringify({ after: 1, label: 'to two', job: named('two') }),
    );
    expect(await found(id)).toMatchObject({ name: 'two' });
    expect(await page().loadPast(id)).toHaveLength(1);
    expect(await asides()).toEqual([]);
  });

  test('overtaken by another tab are set aside, not laid over its work', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await store.saveJob(id, named('two'));
    localStorage.setItem(
      `tiltloom-job-last-words:${id}`,
      JSON.stringify({ after: 1, label: 'late', job: named('late') }),
    );
    expect(await found(id)).toMatchObject({ name: 'two' });
    expect(await asides()).toMatchObject([{ name: 'late' }]);
  });

  test('are left alone by a tab that only looks on', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    const key = `tiltloom-job-last-words:${id}`;
    localStorage.setItem(key, JSON.stringify({ after: 1, label: 'x', job: named('two') }));
    expect(await page().openJob(id, false)).toMatchObject({ job: { name: 'one' } });
    expect(localStorage.getItem(key)).not.toBeNull();
  });
});

describe('a full disk', () => {
  const full = () => new DOMException('full', 'QuotaExceededError');

  test('costs the way back before it costs the job', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    await store.saveJob(id, named('two'));
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementationOnce(() => {
      throw full();
    });
    await store.saveJob(id, named('three'));
    expect(await found(id)).toMatchObject({ name: 'three' });
    expect(await page().loadPast(id)).toMatchObject([{ before: { name: 'two' } }]);
  });

  test('that has no room at all leaves the state before, and the next try succeeds', async () => {
    const store = page();
    const id = await store.createJob(named('one'));
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw full();
    });
    await expect(store.saveJob(id, named('two'))).rejects.toMatchObject({
      name: 'QuotaExceededError',
    });
    put.mockRestore();
    // Another tab, which only looks, sees what is on the disk.
    expect(await page().loadJobById(id)).toMatchObject({ kind: 'job', job: { name: 'one' } });
    await store.saveJob(id, named('three'));
    expect(await found(id)).toMatchObject({ name: 'three' });
  });
});

test('pictures of every kept state, of the bin and of what was set aside are spared', async () => {
  const store = page();
  const id = await store.createJob(withFrames(named('Gull'), 'before'));
  await store.saveJob(id, withFrames(named('Gull'), 'now'));
  const binned = await store.createJob(withFrames(named('Heron'), 'binned'));
  await store.deleteJob(binned);
  const torn = await store.createJob(withFrames(named('Tern'), 'torn'));
  await raw((database) =>
    database.put('entries', {
      jobId: torn,
      seq: 2,
      at: 0,
      label: '',
      job: { frames: [{ id: 'of-the-torn' }] },
    }),
  );
  expect([...(await page().keptPixelIds())]).toEqual(
    expect.arrayContaining(['before', 'now', 'binned', 'torn', 'of-the-torn']),
  );
  await store.openJob(torn);
  expect(await page().keptPixelIds()).toContain('of-the-torn');
});
