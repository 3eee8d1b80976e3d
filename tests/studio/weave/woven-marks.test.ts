/** What is remembered of a woven job once its files are gone with the page. */
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { standingByMark, withWoven } from '../../../src/studio/weave/woven-marks.ts';

const marksOf = (job: Job) => withWoven({}, 'a', 'sheet', job);

describe('a job woven in an earlier visit', () => {
  const { a = '' } = marksOf(newJob());

  test('is known as it was, also with what does not touch its dots', () => {
    expect(standingByMark(a, newJob())).toBe('woven');
    expect(standingByMark(a, { ...newJob(), name: 'Another name', mountTicks: ['cut'] })).toBe(
      'woven',
    );
  });

  test.each<[string, Partial<Job>]>([
    ['wider', { print: { ...newJob().print, widthMm: 300 } }],
    ['of other slots', { viewSlots: 10 }],
    ['in tiles', { tiles: { on: true } as NonNullable<Job['tiles']> }],
  ])('%s has changed since', (_what, change) => {
    expect(standingByMark(a, { ...newJob(), ...change })).toBe('stale');
  });
});

test('a strip says nothing of the print', () => {
  expect(withWoven({}, 'a', 'strip', newJob())).toEqual({});
});

test('the sixty jobs woven last are remembered', () => {
  let marks = {};
  for (let number = 1; number <= 70; number += 1)
    marks = withWoven(marks, `job ${number}`, 'sheet', newJob());
  marks = withWoven(marks, 'job 11', 'sheet', newJob());
  expect(Object.keys(marks)).toHaveLength(60);
  expect(Object.keys(marks)[0]).toBe('job 12');
  expect(Object.keys(marks).at(-1)).toBe('job 11');
});
