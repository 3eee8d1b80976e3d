/** The edits of a recipe, and what the studio says of recipes that will disappoint. */
import { describe, expect, test } from 'vitest';
import { reverseFrames, setViewSlots } from '../../../src/job/edits/consequences.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import {
  choosePicture,
  chooseRecipe,
  editChange,
  editFlip,
  guardAdviceOf,
  putInSet,
  setPictureCount,
  splitInHalves,
} from '../../../src/job/edits/recipe.ts';
import { recipeFindings } from '../../../src/job/findings/recipe.ts';
import { framesInSlots, slotsOf } from '../../../src/job/facts/sheet.ts';
import { safeParse } from 'valibot';

const jobOf = (ids: string, viewSlots = 12): Job => ({
  ...newJob(),
  viewSlots,
  frames: Array.from(ids, (id) => ({
    id,
    name: `${id}.png`,
    byteLength: 1,
    widthPx: 80,
    heightPx: 100,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.5,
  })),
});
const told = (job: Job) => recipeFindings(job).map(({ id }) => id);
const shown = (job: Job) =>
  slotsOf(job)
    .map(({ parts, plain }) => parts.map(({ frame }) => frame).join('') || plain)
    .join(' ');

describe('edits', () => {
  test('every recipe as begun is one the document accepts, and comes back from storage', () => {
    for (const kind of ['flip', 'sway', 'change', 'animation', 'depth'] as const) {
      const job = chooseRecipe(chooseRecipe(jobOf('abcd'), 'flip'), kind);
      expect(safeParse(jobSchema, job).success).toBe(true);
      const restored = restoreJob(JSON.parse(JSON.stringify(job)));
      expect(restored).toEqual({ ok: true, job });
      expect(slotsOf(job)).toHaveLength(12);
    }
    expect(chooseRecipe(jobOf('abcd'), 'depth').recipe).toBeUndefined();
  });

  test('jobs of before there were recipes read as ever', () => {
    const old = jobOf('abcd', 4);
    expect(restoreJob(JSON.parse(JSON.stringify(old)))).toEqual({ ok: true, job: old });
    expect(framesInSlots(old).map(({ id }) => id)).toEqual(['a', 'b', 'c', 'd']);
  });

  test('a flip begins with the first and the last frame, and grows by frames not yet in use', () => {
    const flip = chooseRecipe(jobOf('abcd'), 'flip');
    expect(flip.recipe).toMatchObject({ pictures: ['a', 'd'] });
    const three = setPictureCount(flip, 3);
    expect(three.recipe).toMatchObject({ pictures: ['a', 'd', 'b'] });
    expect(setPictureCount(three, 2)).toEqual(flip);
    expect(choosePicture(flip, 1, 'c').recipe).toMatchObject({ pictures: ['a', 'c'] });
    expect(choosePicture(flip, 1, 'd')).toBe(flip);
  });

  test('sets follow the order of the frames, and halves can be had again', () => {
    const change = chooseRecipe(jobOf('abcd'), 'change');
    expect(change.recipe).toMatchObject({ second: ['c', 'd'] });
    const moved = putInSet(putInSet(change, 'a', 'second'), 'd', 'first');
    expect(moved.recipe).toMatchObject({ second: ['a', 'c'] });
    expect(splitInHalves(moved)).toEqual(change);
  });

  test.each(['flip', 'sway', 'change', 'animation'] as const)(
    'reversing the sequence reverses what a %s shows',
    (kind) => {
      const job = chooseRecipe(jobOf('abcdef'), kind);
      const turned = slotsOf(reverseFrames(job)).map(({ parts }) => parts);
      const wanted = [...slotsOf(job)].reverse().map(({ parts }) => parts);
      // A sway is its own mirror image: turned round it starts from the other end.
      if (kind === 'sway') expect(turned[0]).toEqual([{ frame: 'f', weight: 1 }]);
      else
        turned.forEach((parts, slot) => {
          const expected = wanted[slot] ?? [];
          expect(parts).toHaveLength(expected.length);
          for (const { frame, weight } of parts)
            expect(expected.find((part) => part.frame === frame)?.weight).toBeCloseTo(weight, 9);
        });
    },
  );

  test('the callers that want one frame a slot get the heavier one, and a neighbour for a plain slot', () => {
    const change = editChange(chooseRecipe(jobOf('ab', 4), 'change'), { crossWidth: 1 });
    expect(framesInSlots(change).map(({ id }) => id)).toEqual(['a', 'a', 'b', 'b']);
    const flip = editFlip(chooseRecipe(jobOf('ab', 5), 'flip'), { guard: 'black', guardSlots: 1 });
    expect(shown(flip)).toBe('a a black b b');
    expect(framesInSlots(flip).map(({ id }) => id)).toEqual(['a', 'a', 'a', 'b', 'b']);
  });
});

describe('findings', () => {
  test('a flip begun as advised is quiet; with fewer guards it says so and mends it', () => {
    const flip = chooseRecipe(jobOf('ab'), 'flip');
    expect(told(flip)).toEqual([]);
    const advised = guardAdviceOf(flip) ?? NaN;
    expect(advised).toBeGreaterThan(0);
    const bare = editFlip(flip, { guardSlots: 0 });
    const [finding] = recipeFindings(bare);
    expect(finding?.id).toBe('flip-guard-narrow');
    const action = finding?.action;
    if (action === undefined || !('edit' in action)) throw new Error('expected an edit');
    expect(action.edit(bare)).toEqual(flip);
  });

  test('a flip without room for its guards, a picture short, or of one picture', () => {
    const flip = chooseRecipe(jobOf('abcd'), 'flip');
    expect(told(setViewSlots(editFlip(flip, { guardSlots: 9 }), 4))).toContain('flip-guard-room');
    expect(told({ ...flip, frames: flip.frames.slice(0, 3) })).toContain('flip-picture-missing');
    expect(told(choosePicture(flip, 1, 'a'))).toContain('flip-same-picture');
  });

  test('a sway of two frames, and depth inside out where ribs stand', () => {
    expect(told(chooseRecipe(jobOf('ab'), 'sway'))).toEqual(['sway-few-frames']);
    expect(told(chooseRecipe(jobOf('abc'), 'sway'))).toEqual(['sway-turns-depth']);
    expect(told(chooseRecipe({ ...jobOf('abc'), ribs: 'lying' }, 'sway'))).toEqual([]);
  });

  test('sets of unequal size, or an empty one', () => {
    const change = chooseRecipe(jobOf('abcd'), 'change');
    expect(told(change)).toEqual([]);
    const [unequal] = recipeFindings(putInSet(change, 'c', 'first'));
    expect(unequal).toMatchObject({ id: 'change-sets-unequal', figure: '3 and 1 frames' });
    expect(recipeFindings(editChange(change, { second: [] }))[0]?.severity).toBe('problem');
  });

  test('moments under upright ribs reach the eyes at two times', () => {
    expect(told(chooseRecipe(jobOf('abc'), 'animation'))).toEqual(['animation-upright']);
    expect(told(chooseRecipe({ ...jobOf('abc'), ribs: 'lying' }, 'animation'))).toEqual([]);
  });
});
