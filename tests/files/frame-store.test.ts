import { describe, expect, test } from 'vitest';
import { StudioError } from '../../src/contract/errors.ts';
import { createFrameStore } from '../../src/files/frame-store.ts';
import type { Shelf } from '../../src/files/shelves.ts';
import { openMemoryShelf } from '../../src/files/shelves.ts';

const picture = new Blob(['picture']);
const small = new Blob(['small']);
/** Of the only page that is open. */
const storeOn = (shelf: Shelf) =>
  createFrameStore(() => Promise.resolve(shelf), {
    enter: () => Promise.resolve(),
    alone: (task) => task(),
  });

describe('kept frames', () => {
  test('can be opened at once, before the copy is written', async () => {
    const never = { ...openMemoryShelf(), put: () => new Promise<void>(() => {}) };
    const store = storeOn(never);
    void store.keep('f1', 'a.png', picture, small);
    expect(await (await store.open('f1')).text()).toBe('picture');
    expect(await (await store.openThumbnail('f1'))?.text()).toBe('small');
  });

  test('come back in a new page, thumbnails too', async () => {
    const shelf = openMemoryShelf();
    await storeOn(shelf).keep('f1', 'a.png', picture, small);
    const later = storeOn(shelf);
    expect(later.fileOf('f1')).toBeUndefined();
    expect(await (await later.open('f1')).text()).toBe('picture');
    expect(await (await later.openThumbnail('f1'))?.text()).toBe('small');
  });

  test('are served from the copy once it is written, as the own file may change', async () => {
    const shelf = { ...openMemoryShelf(), get: () => Promise.resolve(new Blob(['copy'])) };
    const store = storeOn(shelf);
    await store.keep('f1', 'a.png', picture, small);
    expect(await store.fileOf('f1')?.text()).toBe('copy');
  });

  test('that are nowhere say which and what to do', async () => {
    const error = await storeOn(openMemoryShelf())
      .open('f9', 'gull_03.png')
      .catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(StudioError);
    expect(error).toMatchObject({ code: 'file-gone', file: 'gull_03.png' });
    expect((error as Error).message).toContain('gull_03.png');
  });

  test('that find no room say so by name and stay usable', async () => {
    const full = {
      ...openMemoryShelf(),
      put: () => Promise.reject(new DOMException('full', 'QuotaExceededError')),
    };
    const store = storeOn(full);
    await expect(store.keep('f1', 'gull_03.png', picture, small)).rejects.toMatchObject({
      code: 'no-room',
      file: 'gull_03.png',
    });
    expect(await (await store.open('f1')).text()).toBe('picture');
  });

  test('whose file went before it was copied say that, not that the disk refused it', async () => {
    const gone = new Blob(['picture']);
    const unreadable = () => Promise.reject(new DOMException('gone', 'NotReadableError'));
    // What Chromium gives for a File that was changed or deleted since it was chosen.
    Object.assign(gone, { slice: () => ({ arrayBuffer: unreadable }) });
    const shelf = openMemoryShelf();
    const put: Shelf['put'] = (key, content) =>
      content === gone ? unreadable() : shelf.put(key, content);
    await expect(
      storeOn({ ...shelf, put }).keep('f1', 'gull_03.png', gone, small),
    ).rejects.toMatchObject({ code: 'file-gone', file: 'gull_03.png' });
    // The disk's own fault, the file being there, is told as that.
    await expect(
      storeOn({ ...shelf, put: unreadable }).keep('f1', 'gull_03.png', picture, small),
    ).rejects.toMatchObject({ code: 'internal', file: 'gull_03.png' });
  });

  test('that found no room are copied once there is some', async () => {
    const shelf = openMemoryShelf();
    let full = true;
    const filling: Shelf = {
      ...shelf,
      put: (key, content) =>
        full
          ? Promise.reject(new DOMException('full', 'QuotaExceededError'))
          : shelf.put(key, content),
    };
    const store = storeOn(filling);
    await store.keep('f1', 'gull_03.png', picture, small).catch(() => undefined);
    expect(await store.keepAgain()).toEqual(['gull_03.png']);
    full = false;
    expect(await store.keepAgain()).toEqual([]);
    expect(await (await storeOn(shelf).open('f1')).text()).toBe('picture');
    // Nothing is left to do.
    full = true;
    expect(await store.keepAgain()).toEqual([]);
  });

  test('that are nowhere are told apart from those in memory or on the disk', async () => {
    const shelf = openMemoryShelf();
    await storeOn(shelf).keep('kept', 'a.png', picture, small);
    const later = storeOn({ ...shelf, put: () => new Promise<void>(() => {}) });
    void later.keep('held', 'b.png', picture, small);
    expect(await later.missing(['kept', 'held', 'gone'])).toEqual(['gone']);
  });

  test('removed for good are nowhere, thumbnails too', async () => {
    const shelf = openMemoryShelf();
    const store = storeOn(shelf);
    await store.keep('f1', 'a.png', picture, small);
    await store.keep('f2', 'b.png', picture, small);
    await store.remove(['f1', 'never there']);
    expect((await shelf.keys()).sort()).toEqual(['f2', 'f2.thumbnail']);
    expect(await store.missing(['f1', 'f2'])).toEqual(['f1']);
  });

  test('are swept but for those that belong to the job', async () => {
    const shelf = openMemoryShelf();
    const before = storeOn(shelf);
    await before.keep('f1', 'a.png', picture, small);
    await before.keep('f2', 'b.png', picture, small);
    await storeOn(shelf).sweep(async () => ['f2']);
    expect((await shelf.keys()).sort()).toEqual(['f2', 'f2.thumbnail']);
  });

  test('of this page are not swept', async () => {
    const shelf = openMemoryShelf();
    const store = storeOn(shelf);
    await store.keep('f1', 'a.png', picture, small);
    await store.sweep(async () => []);
    expect(await shelf.keys()).toContain('f1');
  });
});
