/** Measured parallax on the device, over an IndexedDB in memory: reloads and damaged records. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { keepParallax, loadParallax } from '../../src/files/parallax-store.ts';
import type { WholeParallax } from '../../src/job/facts/parallax.ts';

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
});
afterEach(() => {
  vi.unstubAllGlobals();
});

const measured = (key: string): WholeParallax => ({
  key,
  pairs: [
    {
      columns: 2,
      rows: 2,
      placeWidth: 0.5,
      placeHeight: 0.5,
      shift: Float32Array.of(0.01, NaN, -0.02, 0),
      rise: Float32Array.of(0, NaN, 0, 0),
    },
  ],
  votes: { right: 12, reversed: 3 },
});

test('nothing at first; after a reload the last that was kept, to the bit', async () => {
  expect(await loadParallax()).toBeUndefined();
  await keepParallax(measured('first'));
  await keepParallax(measured('second'));
  expect(await loadParallax()).toEqual(measured('second'));
});

test.each([
  ['no record at all', 'a word'],
  ['another shape', { key: 'x', pairs: [{ columns: 2 }], votes: { right: 0, reversed: 0 } }],
  [
    'fewer values than places',
    { ...measured('x'), pairs: [{ ...measured('x').pairs[0], rise: Float32Array.of(0) }] },
  ],
])('a damaged record (%s) is passed over and can be replaced', async (_, damaged) => {
  await keepParallax(measured('before'));
  const database = await openDB('tiltloom-parallax', 1);
  await database.put('measured', damaged, 'last');
  database.close();
  expect(await loadParallax()).toBeUndefined();
  await keepParallax(measured('after'));
  expect((await loadParallax())?.key).toBe('after');
});
