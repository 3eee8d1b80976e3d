/** A private disk that does not answer is given up after a while, and taken again once it does. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';

let answer: (root: object) => void;
beforeEach(() => {
  vi.useFakeTimers();
  vi.resetModules();
  const root = new Promise((resolve) => (answer = resolve));
  vi.stubGlobal('navigator', { storage: { getDirectory: () => root } });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const open = () => import('../../src/files/private-disk.ts');

test('one that answers is never taken for silent, however long ago it answered', async () => {
  const { isDiskSilent, privateDisk } = await open();
  const root = {};
  answer(root);
  expect(await privateDisk()).toBe(root);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(isDiskSilent()).toBe(false);
  expect(await privateDisk()).toBe(root);
});

test('one that does not is waited for once, and is there as soon as it answers', async () => {
  const { isDiskSilent, privateDisk } = await open();
  const first = expect(privateDisk()).rejects.toMatchObject({
    name: 'DiskSilent',
    code: 'no-room',
  });
  await vi.advanceTimersByTimeAsync(10_000);
  await first;
  expect(isDiskSilent()).toBe(true);
  const second = expect(privateDisk()).rejects.toMatchObject({ name: 'DiskSilent' });
  await vi.advanceTimersByTimeAsync(1);
  await second;
  const root = {};
  answer(root);
  expect(await privateDisk()).toBe(root);
  expect(isDiskSilent()).toBe(false);
});
