/** Before a weave: whether the browser's disk will hold the file. */
import { act, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { RoomFor } from '../../src/benches/desk/RoomFor.tsx';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;
beforeEach(() => {
  studio = makeStudio();
  studio.view.getState().set({ fileType: 'tiff' });
  const estimate = async () => ({ usage: 2e9, quota: 3e9 });
  vi.stubGlobal('navigator', { storage: { estimate } });
});
afterEach(() => void vi.unstubAllGlobals());

/** A gigabyte is left. */
const left = /has 1 GB left for the studio/;
const told = () => screen.queryByText(left)?.textContent;

test('a sheet that will hardly fit is told with its size and what is left', async () => {
  const { rerender } = renderIn(studio, <RoomFor dots={1e9} />);
  expect(await screen.findByText(left)).toHaveTextContent('some 1.7 GB');
  rerender(<RoomFor dots={1.5e13} />);
  expect(told()).toContain('some 25.5 TB');
  rerender(<RoomFor dots={41e6} />);
  expect(told()).toBeUndefined();
});

test('a chosen file has a disk of its own, and a smaller type may fit', async () => {
  const choose = (change: Parameters<ReturnType<Studio['view']['getState']>['set']>[0]) =>
    act(() => studio.view.getState().set(change));
  renderIn(studio, <RoomFor dots={1e9} />);
  await screen.findByText(left);
  choose({ fileType: 'pdf' });
  expect(told()).toBeUndefined();
  choose({ fileType: 'tiff' });
  expect(told()).toContain('some 1.7 GB');
  choose({ saveTo: 'chosen-file' });
  expect(told()).toBeUndefined();
});
