/** Kept jobs that are not as this version writes them: of version 1, or torn. */
import { openDB } from 'idb';
import { describe, expect, test } from 'vitest';
import { asides, beginEmpty, found, named, page, step, tear } from './kept-jobs.ts';

beginEmpty();

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
