/** A title over the slots: out of the sequence, slid by its step, never off the print. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { chooseRecipe } from '../../../src/job/edits/recipe.ts';
import { recipeFindings } from '../../../src/job/findings/recipe.ts';
import { ribsAcross, slotsOf } from '../../../src/job/facts/sheet.ts';
import { slotPicturesOf } from '../../../src/job/facts/slot-pictures.ts';
import { setTitle, titleAreaOf, titleShift } from '../../../src/job/facts/title.ts';

const jobOf = (ids: string, title: Job['title'], change: Partial<Job> = {}): Job => ({
  ...newJob(),
  viewSlots: 5,
  frames: Array.from(ids, (id) => ({
    id,
    name: `${id}.png`,
    byteLength: 1,
    widthPx: 800,
    heightPx: 1000,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.5,
  })),
  ...(title === undefined ? {} : { title }),
  ...change,
});

describe('the title of a job', () => {
  const title = { frame: 't', step: 0.5 };

  test('takes its frame out of the sequence, lies over every slot, and slides evenly', () => {
    const job = jobOf('abt', title);
    expect(slotsOf(job).map(({ parts }) => parts[0]?.frame)).toEqual(['a', 'a', 'a', 'b', 'b']);
    const { pictures, mixes, slots } = slotPicturesOf(job);
    expect(pictures.map(({ id }) => id)).toEqual(['a', 'b', 't over white', 't over black']);
    expect(slots.map((slot) => mixes[slot - pictures.length]?.over?.shift)).toEqual([
      -1, -0.5, 0, 0.5, 1,
    ]);
    const flip = chooseRecipe(jobOf('abt', title), 'flip');
    expect(flip.recipe).toMatchObject({ pictures: ['a', 'b'] });
  });

  test('is none where its frame is gone, is the only one, or was taken off', () => {
    for (const job of [
      jobOf('ab', title),
      jobOf('t', title),
      setTitle(jobOf('abt', title), undefined),
    ])
      expect(slotPicturesOf(job).mixes).toEqual([]);
  });

  test('never leaves the print: its whole picture stays on it in every slot', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.integer({ min: 1, max: 120 }),
        (step, viewSlots) => {
          const job = jobOf('abt', { frame: 't', step }, { viewSlots });
          const frame = job.frames[2] as Job['frames'][number];
          const area = titleAreaOf(job, frame);
          for (const slot of [0, viewSlots - 1]) {
            const perPixel = ribsAcross(job) / area.width;
            const left = -area.left * perPixel + titleShift(job, slot);
            const right = left + frame.widthPx * perPixel;
            expect(left).toBeGreaterThan(-1e-6);
            expect(right).toBeLessThan(ribsAcross(job) + 1e-6);
          }
        },
      ),
    );
  });

  test('too deep to be sharp is said and mended; under lying ribs it has no depth', () => {
    const deep = jobOf('abt', { frame: 't', step: -1.5 });
    const [finding] = recipeFindings(deep);
    expect(finding).toMatchObject({ id: 'title-too-deep', severity: 'caution' });
    const action = finding?.action;
    if (action === undefined || !('edit' in action)) throw new Error('expected an edit');
    expect(action.edit(deep).title).toEqual({ frame: 't', step: -1 });
    expect(recipeFindings(action.edit(deep))).toEqual([]);
    const lying = jobOf('abt', title, { ribs: 'lying' });
    expect(recipeFindings(lying).map(({ id }) => id)).toEqual(['title-lying']);
    expect(titleShift(lying, 0)).toBe(0);
  });
});
