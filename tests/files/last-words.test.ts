/** What a page leaves behind of a change that is not on the disk yet, and when the next takes it up. */
import { describe, expect, test, vi } from 'vitest';
import { asides, beginEmpty, found, named, page, raw, step } from './kept-jobs.ts';

beginEmpty();

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
