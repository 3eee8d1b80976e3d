/** What the list of jobs says of room: what the end of a job would free, and a full disk. */
import { expect, test } from 'vitest';
import { ownBytes, sayFault } from '../../../src/studio/keep/say.ts';
import type { KeptJobEntry } from '../../../src/files/journal.ts';
import { listingOf } from '../../../src/files/journal.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const kept = (id: string, frames: Record<string, number>): KeptJobEntry => ({
  ...listingOf(id, newJob(), 0),
  pictures: Object.entries(frames).map(([frame, byteLength]) => ({ id: frame, byteLength })),
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
