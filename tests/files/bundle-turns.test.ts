/** A job file that unpacks to far more than it is does not hold the page. */
import { afterEach, expect, test, vi } from 'vitest';
import { bundleLimits } from '../../src/files/bundle.ts';
import { readBundle } from '../../src/files/bundle-read.ts';
import { bomb, forge } from './bundle-helpers.ts';

afterEach(() => vi.restoreAllMocks());

test('the page has its turn while little unpacks to much', async () => {
  // Every look at the clock is a long time after the last.
  let now = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => (now += 100));
  let [turns, counting] = [0, true];
  const count = () => {
    turns += 1;
    if (counting) setTimeout(count);
  };
  const megabytes = 64;
  const file = forge([
    { path: 'tiltloom.json', content: bomb, method: 8, states: megabytes * 2 ** 20 },
  ]);
  expect(bomb.length).toBeLessThan(2 * 65536);
  setTimeout(count);
  const read = readBundle(file, 'print.tiltloom.zip', {
    signal: new AbortController().signal,
    report: () => undefined,
    limits: { ...bundleLimits, jsonBytes: 2 ** 30, ratio: 2000 },
  });
  await expect(read).rejects.toThrow(/its checksum is not the one/);
  counting = false;
  // At the most 4 MB are unpacked in one go.
  expect(turns).toBeGreaterThanOrEqual(megabytes / 4);
});
