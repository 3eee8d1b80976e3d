/** Before a weave: whether the browser's disk will hold the file. */
import { act, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { RoomFor } from '../../src/benches/desk/RoomFor.tsx';
import { viewStore } from '../../src/state/view.ts';

const before = viewStore.getState();
beforeEach(() => {
  const estimate = vi.fn(async () => ({ usage: 2e9, quota: 3e9 }));
  vi.stubGlobal('navigator', { storage: { estimate } });
  viewStore.setState({ ...before, fileType: 'tiff', saveTo: 'private-disk' });
});
afterEach(() => {
  vi.unstubAllGlobals();
  viewStore.setState(before);
});

/** A gigabyte is left. */
const told = async (dots: number) => {
  const { unmount } = render(<RoomFor dots={dots} />);
  await act(() => new Promise<void>((resolve) => setTimeout(resolve)));
  const words = screen.queryByText(/has 1 GB left for the studio/)?.textContent;
  unmount();
  return words;
};

test('a sheet that will hardly fit is told with its size and what is left', async () => {
  expect(await told(41e6)).toBeUndefined();
  expect(await told(1e9)).toContain('some 1.7 GB');
  expect(await told(1.5e13)).toContain('some 25.5 TB');
});

test('a chosen file has a disk of its own, and a smaller type may fit', async () => {
  viewStore.setState({ fileType: 'pdf' });
  expect(await told(1e9)).toBeUndefined();
  viewStore.setState({ fileType: 'tiff', saveTo: 'chosen-file' });
  expect(await told(1e9)).toBeUndefined();
});
