/** What a job's file is called when it is saved again. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { newJob } from '../../../src/job/schema/job.ts';
import { makeStudio } from '../support.ts';

beforeEach(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  });
});
afterEach(() => vi.unstubAllGlobals());

const savedAgain = (openedFrom: string) => {
  const { jobFileMarks } = makeStudio();
  const job = { ...newJob(), name: 'गुलाब' };
  jobFileMarks.markSaved('a-job', job, openedFrom);
  return jobFileMarks.fileNameFor('a-job', job);
};

test('as the file it came from, in any script', () => {
  expect(savedAgain('मेरा काम.zip')).toBe('मेरा काम.zip');
});

test('but not where that name turns the direction of its letters', () => {
  expect(savedAgain('rose\u202egnp.zip')).toBe('गुलाब.tiltloom.zip');
});
