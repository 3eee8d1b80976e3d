/** Kept jobs over an IndexedDB in memory: the list, the bin, the way back, two tabs, a full disk. */
import { describe, expect, test, vi } from 'vitest';
import { Overtaken } from '../../src/files/job-store.ts';
import { beginEmpty, found, named, page, passDays, raw, step, withFrames } from './kept-jobs.ts';

beginEmpty();

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
    passDays(8);
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
    await store.saveJob(id, named('four'), { ...step('to four'), bench: 'mount' });
    const past = await page().loadPast(id);
    expect(past.map(({ label, bench, before }) => [label, bench, before.name])).toEqual([
      ['to two', undefined, 'one'],
      ['to four', 'mount', 'two'],
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
