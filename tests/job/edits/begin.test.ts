/** How a job begins: from the last one's workshop, for frames that came, from a demo. */
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { beginJob, fitToFrames, ownCopyOf } from '../../../src/job/edits/begin.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { guessable, jobSchema, newJob } from '../../../src/job/schema/job.ts';

const last: Job = {
  ...newJob(),
  name: 'Terrace',
  lens: { pitchMm: 25.4 / 75, thicknessMm: 0.45, index: 1.56 },
  printer: { carriageDpi: 1440, feedDpi: 720 },
  print: { widthMm: 120, heightMm: 90, viewingDistanceMm: 300 },
  viewSlots: 16,
  keyShift: 0.4,
  mountTicks: ['tape'],
  depthMarks: [{ name: 'basket', zMm: -20 }],
};

describe('a new job', () => {
  test('lies on the lens and printer of the last one, and knows nothing of its picture', () => {
    const job = beginJob(last, 'Pond');
    expect(job).toEqual({
      ...newJob(),
      name: 'Pond',
      lens: last.lens,
      printer: last.printer,
      print: last.print,
      viewSlots: 16,
    });
    expect(v.is(jobSchema, job)).toBe(true);
  });

  test('has usual numbers where there is no last one, and knows that they are guessed', () => {
    expect(beginJob(undefined)).toEqual({ ...newJob(), guessed: [...guessable] });
  });
});

describe('fitted to its frames', () => {
  test('the print has their shape and each frame a slot', () => {
    const job = fitToFrames(last, 8, { widthPx: 800, heightPx: 1000 });
    expect(job.print).toEqual({ widthMm: 120, heightMm: 150, viewingDistanceMm: 300 });
    expect(job.viewSlots).toBe(8);
  });

  test('frames beyond the printed dots under a rib leave the slots as they were; depth takes twice the dots', () => {
    // 1440 dpi under 75 LPI: 19.2 dots.
    const slots = (ribs: Job['ribs'], count: number) =>
      fitToFrames({ ...last, ribs }, count, { widthPx: 4, heightPx: 3 }).viewSlots;
    expect([1, 19, 20].map((count) => slots('lying', count))).toEqual([16, 19, 16]);
    expect([1, 38, 39].map((count) => slots('upright', count))).toEqual([16, 38, 16]);
  });

  test.each([
    [1, 100000],
    [100000, 1],
  ])('a strange shape (%i × %i) still gives a job', (widthPx, heightPx) => {
    expect(v.is(jobSchema, fitToFrames(last, 3, { widthPx, heightPx }))).toBe(true);
  });
});

test('a copy of a demo is the person’s own', () => {
  expect(ownCopyOf({ ...last, demo: 'glasshouse' })).toEqual({
    ...last,
    name: 'My copy of Terrace',
    copyOf: 'glasshouse',
    framesOf: 'glasshouse',
    guessed: [...guessable],
  });
});
