/** Names of jobs that come beside others. */
import { expect, it } from 'vitest';
import { untakenJobName } from '../../../src/job/facts/free-name.ts';

const kept = new Set(['Lighthouse flip', 'Kingfisher', 'Kingfisher 2', '', 'x'.repeat(200)]);

it('numbers a job whose name another has, and no other', () => {
  expect(untakenJobName('Lighthouse flip', kept)).toBe('Lighthouse flip 2');
  expect(untakenJobName('Kingfisher', kept)).toBe('Kingfisher 3');
  expect(untakenJobName('Glasshouse', kept)).toBe('Glasshouse');
});

it('leaves a job without a name without one', () => {
  expect(untakenJobName('', kept)).toBe('');
});

it('leaves room for the number within the 200 letters that a job’s name may have', () => {
  const name = untakenJobName('x'.repeat(200), kept);
  expect(name).not.toBe('x'.repeat(200));
  expect(name.length).toBeLessThanOrEqual(200);
});
