/** The bench's edits of the sequence: pure changes of the job. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addFrames,
  chooseSlot,
  moveFrames,
  removeFrames,
  slotsByFrame,
  sortFrames,
  spreadEvenly,
  stepFrames,
} from '../../../src/job/edits/frames.ts';
import { reverseFrames } from '../../../src/job/edits/consequences.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { framesInSlots } from '../../../src/job/facts/sheet.ts';

const frame = (id: string): Frame => ({
  id,
  name: `${id}.png`,
  byteLength: 1,
  widthPx: 10,
  heightPx: 10,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
});
const jobOf = (ids: string, viewSlots = 4): Job => ({
  ...newJob(),
  viewSlots,
  frames: Array.from(ids, frame),
});
const order = (job: Job): string => job.frames.map(({ id }) => id).join('');
const shown = (job: Job): string =>
  framesInSlots(job)
    .map(({ id }) => id)
    .join('');

describe('order', () => {
  test.each([
    ['a', 'c', 'after', 'bcad'],
    ['d', 'a', 'before', 'dabc'],
    ['bd', 'a', 'before', 'bdac'],
    ['ac', 'd', 'after', 'bdac'],
  ] as const)('moving %s %s %s', (ids, target, side, expected) => {
    expect(order(moveFrames(jobOf('abcd'), new Set(ids), target, side))).toBe(expected);
  });

  test('moving onto itself, to nowhere or to its own place is no change, so no step to undo', () => {
    const job = jobOf('abcd');
    expect(moveFrames(job, new Set('b'), 'b', 'after')).toBe(job);
    expect(moveFrames(job, new Set('b'), 'x', 'after')).toBe(job);
    expect(moveFrames(job, new Set('b'), 'a', 'after')).toBe(job);
  });

  test.each([
    ['b', -1, 'bacd'],
    ['b', 1, 'acbd'],
    ['cd', -1, 'acdb'],
    ['ab', -1, 'abcd'],
    ['ac', -1, 'acbd'],
    ['bd', 1, 'acbd'],
    ['bc', 1, 'adbc'],
  ] as const)('one step for %s by %d', (ids, step, expected) => {
    expect(order(stepFrames(jobOf('abcd'), new Set(ids), step))).toBe(expected);
  });

  test('a step at the end is no change', () => {
    const job = jobOf('abcd');
    expect(stepFrames(job, new Set('cd'), 1)).toBe(job);
    expect(sortFrames(job)).toBe(job);
  });

  test('no move or step ever loses or doubles a frame', () => {
    const six = Array.from('abcdef');
    const subset = fc.subarray(six).map((ids) => new Set(ids));
    fc.assert(
      fc.property(subset, fc.constantFrom(...six), fc.boolean(), (ids, target, flag) => {
        const job = jobOf('abcdef');
        for (const changed of [
          moveFrames(job, ids, target, flag ? 'before' : 'after'),
          stepFrames(job, ids, flag ? -1 : 1),
        ])
          expect(Array.from(order(changed)).sort().join('')).toBe('abcdef');
      }),
    );
  });

  test('newcomers go to their natural places', () => {
    expect(order(addFrames(jobOf('bd'), [frame('c'), frame('a')]))).toBe('abcd');
    expect(order(addFrames(jobOf('db'), [frame('c'), frame('a')]))).toBe('dbac');
  });
});

describe('the choice by hand', () => {
  test('fills one slot and leaves the others to the spread', () => {
    const job = chooseSlot(jobOf('abcd'), 2, 'a');
    expect(shown(job)).toBe('abad');
    expect(shown(chooseSlot(job, 2, ''))).toBe('abcd');
    expect(chooseSlot(job, 2, '').slotsByHand).toBeUndefined();
    expect(shown(spreadEvenly(job))).toBe('abcd');
  });

  test('lets go of a removed frame', () => {
    const job = removeFrames(chooseSlot(jobOf('abcd'), 2, 'a'), new Set('a'));
    expect(job.slotsByHand).toBeUndefined();
    expect(shown(job)).toBe('bbcd');
  });

  test('turns round with the frames', () => {
    const job = reverseFrames(chooseSlot(jobOf('abcd'), 0, 'c'));
    expect(shown(job)).toBe('dcbc');
  });

  test('follows its frame, not its place, when the order changes', () => {
    const job = moveFrames(chooseSlot(jobOf('abcd'), 0, 'c'), new Set('d'), 'a', 'before');
    expect(shown(job)).toBe('cabc');
  });
});

test('which slots show a frame', () => {
  expect(slotsByFrame(jobOf('ab', 4))).toEqual(
    new Map([
      ['a', [0, 1]],
      ['b', [2, 3]],
    ]),
  );
  expect(slotsByFrame(jobOf('')).size).toBe(0);
});
