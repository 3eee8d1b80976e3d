/** What the list of jobs says of room: figures in words, and what the end of a job would free. */
import { expect, test } from 'vitest';
import { sayBytes } from '../../src/core/units/format.ts';
import { ownBytes, sayFault } from '../../src/studio/keep/say.ts';
import type { KeptJobEntry } from '../../src/files/journal.ts';
import { listingOf } from '../../src/files/journal.ts';
import { newJob } from '../../src/job/schema/job.ts';

const kept = (id: string, frames: Record<string, number>): KeptJobEntry => ({
  ...listingOf(id, newJob(), 0),
  pictures: Object.entries(frames).map(([frame, byteLength]) => ({ id: frame, byteLength })),
});

test.each([
  [0, '0 kB'],
  [1, '1 kB'],
  [999_000, '999 kB'],
  [2_560_000, '2.6 MB'],
  [38_400_000, '38.4 MB'],
  [338_400_000, '338 MB'],
  [10_700_000_000, '10.7 GB'],
])('%i bytes are %s', (bytes, said) => {
  expect(sayBytes(bytes)).toBe(said);
});

test('a job frees only frames that no other job has', () => {
  const gull = kept('gull', { a: 1000, b: 200 });
  const copy = kept('copy', { a: 1000, b: 200 });
  const tern = kept('tern', { b: 200, c: 30 });
  expect(ownBytes(gull, [gull])).toBe(1200);
  expect(ownBytes(gull, [gull, copy])).toBe(0);
  expect(ownBytes(gull, [gull, tern])).toBe(1000);
  expect(ownBytes(tern, [gull, tern])).toBe(30);
});

test('a deed that found no room says what to do, and one that failed otherwise says why', () => {
  expect(sayFault(new DOMException('', 'QuotaExceededError'))).toMatch(/no room.*free some room/);
  expect(sayFault(new Error('It is open in another tab.'))).toBe('It is open in another tab.');
});
