/** Shelves on the device, over an IndexedDB in memory: reloads, two tabs at once, damaged records. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openShelfStore } from '../../src/files/shelf-store.ts';
import type { Shelves } from '../../src/materials/shelves.ts';
import { addEntry, removeEntry } from '../../src/materials/shelves.ts';
import { starterShelves } from '../../src/materials/starters.ts';

type Store = ReturnType<typeof openShelfStore>;
const opened: Store[] = [];
const noon = () => new Date('2026-11-25T12:00:00Z');

/** A page of the studio. */
const page = async () => {
  const store = openShelfStore(noon);
  opened.push(store);
  return { store, kept: await store.load() };
};

const raw = () => openDB('tiltloom-shelves', 1);
const records = async () => {
  const database = await raw();
  const keys = (await database.getAllKeys('shelves')) as string[];
  const values: unknown[] = await database.getAll('shelves');
  database.close();
  return Object.fromEntries(keys.map((key, i) => [key, values[i]]));
};
const storeRaw = async (value: unknown) => {
  const database = await raw();
  await database.put('shelves', value, 'current');
  database.close();
};

const starters = starterShelves();
const withPaper = (shelves: Shelves, id: string): Shelves =>
  addEntry(shelves, 'papers', { id, name: id, widthMm: 100, heightMm: 150, note: '' });
const idsOf = ({ papers }: Shelves) => papers.map(({ id }) => id);

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
});
afterEach(() => {
  for (const store of opened.splice(0)) store.close();
  vi.unstubAllGlobals();
});

describe('one tab', () => {
  test('finds nothing at first, and after a reload what was kept', async () => {
    const first = await page();
    expect(first.kept).toEqual({ kind: 'none' });
    const mine = withPaper(starters, 'card');
    expect(await first.store.save(starters, mine)).toBe(mine);
    expect((await page()).kept).toMatchObject({ kind: 'shelves', shelves: mine, leftOut: [] });
  });

  test('keeps changes in the order they were made, however quickly', async () => {
    const { store } = await page();
    const [a, ab] = [withPaper(starters, 'a'), withPaper(withPaper(starters, 'a'), 'b')];
    const back = removeEntry(ab, 'papers', 'a');
    await Promise.all([store.save(starters, a), store.save(a, ab), store.save(ab, back)]);
    expect((await page()).kept).toMatchObject({ kind: 'shelves', shelves: back });
  });

  test('goes on without a database, and says why nothing lasts', async () => {
    vi.stubGlobal('indexedDB', undefined);
    const { store, kept } = await page();
    expect(kept).toEqual({
      kind: 'memory-only',
      reason: 'this browser gives the page no database',
    });
    const mine = withPaper(starters, 'card');
    expect(await store.save(starters, mine)).toBe(mine);
  });
});

describe('two tabs', () => {
  test('do not write over each other, though neither saw the other’s change', async () => {
    const [here, there] = [await page(), await page()];
    await here.store.save(starters, withPaper(starters, 'here'));
    const both = await there.store.save(starters, withPaper(starters, 'there'));
    expect(idsOf(both)).toEqual([...idsOf(starters), 'here', 'there']);
    expect((await page()).kept).toMatchObject({ kind: 'shelves', shelves: both });
  });

  test('a removal in one takes nothing else of the other', async () => {
    const [here, there] = [await page(), await page()];
    const kept = withPaper(starters, 'here');
    await here.store.save(starters, kept);
    const both = await there.store.save(
      starters,
      removeEntry(starters, 'papers', 'starter-paper-a3'),
    );
    expect(idsOf(both)).toEqual(['starter-paper-a4', 'starter-paper-letter', 'here']);
  });

  test('each hears of the other’s change, and not of its own', async () => {
    const [here, there] = [await page(), await page()];
    const heardHere = vi.fn<(stored: Shelves) => void>();
    const heardThere = vi.fn<(stored: Shelves) => void>();
    here.store.onChangedElsewhere(heardHere);
    there.store.onChangedElsewhere(heardThere);
    const mine = withPaper(starters, 'card');
    await here.store.save(starters, mine);
    await vi.waitFor(() => expect(heardThere).toHaveBeenCalledWith(mine));
    expect(heardHere).not.toHaveBeenCalled();
  });

  test('listens to nothing but the one word they say to each other', async () => {
    const { store } = await page();
    const heard = vi.fn<(stored: Shelves) => void>();
    store.onChangedElsewhere(heard);
    await storeRaw(withPaper(starters, 'card'));
    const other = new BroadcastChannel('tiltloom-shelves');
    for (const message of [null, undefined, 7, 'change', ['changed'], { changed: true }, new Map()])
      other.postMessage(message);
    await storeRaw(withPaper(starters, 'board'));
    other.postMessage('changed');
    await vi.waitFor(() => expect(heard).toHaveBeenCalled());
    expect(heard.mock.calls.map(([shelves]) => idsOf(shelves).at(-1))).toEqual(['board']);
    other.close();
  });
});

describe('a damaged record', () => {
  test('of another kind is set aside, also when it came while the page was open', async () => {
    const { store } = await page();
    await storeRaw({ kind: 'something else' });
    const mine = withPaper(starters, 'card');
    await store.save(starters, mine);
    expect(await records()).toEqual({
      current: mine,
      'set aside 2026-11-25T12:00:00.000Z': { kind: 'something else' },
    });
    await storeRaw('rubbish');
    expect((await page()).kept).toMatchObject({ kind: 'damaged' });
    expect(Object.values(await records())).toContain('rubbish');
  });

  test('of single entries gives the rest, and moves those to a place of their own', async () => {
    await page();
    const torn = { id: 'torn', name: 'Torn card', widthMm: 'wide', heightMm: 150 };
    await storeRaw({ ...starters, papers: [...starters.papers, torn] });
    const { kept } = await page();
    expect(kept).toMatchObject({
      kind: 'shelves',
      shelves: starters,
      leftOut: [{ shelf: 'papers', name: 'Torn card', entry: torn }],
    });
    expect(JSON.stringify(await records())).toContain('Torn card');
    // It lies elsewhere now, so the next visit has nothing to say.
    expect((await page()).kept).toMatchObject({ kind: 'shelves', leftOut: [] });
  });
});
