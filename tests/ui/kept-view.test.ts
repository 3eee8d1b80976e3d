/** Settings that the browser kept, as a damaged profile or another version of the studio may give them back. */
import { afterEach, expect, test } from 'vitest';
import { keptView } from '../../src/state/kept-view.ts';
import { viewStore } from '../../src/state/view.ts';

const before = viewStore.getState();
afterEach(() => viewStore.setState(before, true));

const rehydrated = async (state: unknown) => {
  localStorage.setItem('tiltloom-view', JSON.stringify({ state, version: 1 }));
  await viewStore.persist.rehydrate();
  return viewStore.getState();
};

test('all that is kept comes back', async () => {
  const { set, ...own } = before;
  const changed = { ...own, units: 'in', theme: 'dark', ownLensCounts: [62.5], loupeX: 0.25 };
  expect(await rehydrated(changed)).toMatchObject(changed);
  // What is only of this visit is not taken, and every setting that is written is read.
  localStorage.removeItem('tiltloom-view');
  set({ fileType: 'pdf' });
  const written = JSON.parse(localStorage.getItem('tiltloom-view') ?? '') as { state: unknown };
  expect(keptView(written.state)).toEqual(written.state);
});

test.each([
  ['units', 'cm'],
  ['theme', null],
  ['fileType', '__proto__'],
  ['loupeX', 7],
  ['openShelf', 'toString'],
  ['ownLensCounts', [60, 'sixty']],
  ['ownPrinterGrids', { length: 3 }],
  ['currencyMark', { toString: 1 }],
  ['framesWanted', -1],
])('%s as %j falls to its default, and the others stay', async (name, value) => {
  const { set: _set, ...own } = before;
  const now = await rehydrated({ ...own, pitchUnit: 'mm', [name]: value });
  expect(now).toMatchObject({ pitchUnit: 'mm', [name]: own[name as keyof typeof own] });
});

test.each([null, 5, 'view', [], { set: 'nothing' }])(
  '%j instead of settings changes none',
  async (state) => {
    expect(await rehydrated(state)).toEqual(before);
  },
);
