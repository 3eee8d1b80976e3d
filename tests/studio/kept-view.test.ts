// @vitest-environment jsdom
/** Settings that the browser kept, as a damaged profile or another version of the studio may give them back. */
import { beforeEach, expect, test } from 'vitest';
import { keptView } from '../../src/state/kept-view.ts';
import { createViewStore } from '../../src/state/view.ts';

/** Of a page that opens now. */
const viewNow = () => createViewStore(() => undefined).getState();

beforeEach(() => localStorage.clear());
const { set: _set, ...initial } = viewNow();

const recalled = (state: unknown) => {
  localStorage.setItem('tiltloom-view', JSON.stringify({ state, version: 1 }));
  return viewNow();
};

test('all that is kept comes back', () => {
  const changed = { ...initial, units: 'in', theme: 'dark', ownLensCounts: [62.5], loupeX: 0.25 };
  const { set, ...now } = recalled(changed);
  expect(now).toEqual(changed);
  // What is only of this visit is not taken, and every setting that is written is read.
  localStorage.clear();
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
])('%s as %j falls to its default, and the others stay', (name, value) => {
  const now = recalled({ ...initial, pitchUnit: 'mm', [name]: value });
  expect(now).toMatchObject({ pitchUnit: 'mm', [name]: initial[name as keyof typeof initial] });
});

test.each([null, 5, 'view', [], { set: 'nothing' }])(
  '%j instead of settings changes none',
  (state) => {
    expect(recalled(state)).toEqual({ ...initial, set: expect.any(Function) as unknown });
  },
);
