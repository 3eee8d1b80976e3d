/** What the studio assumed, and how a person's own numbers take its place. */
import { describe, expect, test } from 'vitest';
import { beginJob, ownCopyOf } from '../../../src/job/edits/begin.ts';
import { giveOwn, guessOf, toBeAsked, withoutSaid } from '../../../src/job/edits/guessed.ts';
import { setLensPitch } from '../../../src/job/edits/consequences.ts';
import type { Guessable, Job } from '../../../src/job/schema/job.ts';
import { guessable, newJob } from '../../../src/job/schema/job.ts';
import { emptyShelves } from '../../../src/materials/shelves.ts';
import { newLens, takeLens } from '../../../src/materials/use-in-job.ts';
import { createDocumentStore } from '../../../src/state/document.ts';

const give = (job: Job, part: Guessable, value: number): Job => giveOwn(part, value)[1](job);
const first = beginJob(undefined);
const all = [...guessable];

describe('what is asked', () => {
  test('everything of a person’s first job; nothing of a kept job from before', () => {
    expect(toBeAsked(first)).toEqual(all);
    expect(toBeAsked(newJob())).toEqual([]);
  });

  test('what was left open goes on to the next job, what was given does not', () => {
    const given = give(first, 'printer', 1440);
    expect(toBeAsked(beginJob(given))).toEqual(all.filter((part) => part !== 'printer'));
  });

  test('nothing of a copy of a demo; a first own job after it is asked what the copy only took over', () => {
    const copy = ownCopyOf({ ...newJob(), demo: 'glasshouse' });
    expect(toBeAsked(copy)).toEqual([]);
    const seen = withoutSaid(copy, { ...copy, lens: { ...copy.lens, pitchMm: 0.5 } });
    expect(toBeAsked(beginJob(seen))).toEqual(all.filter((part) => part !== 'lensPitch'));
  });
});

describe('giving a number', () => {
  test('the number that was there counts as given', () => {
    for (const part of guessable) {
      const said = give(first, part, guessOf(first, part));
      expect(toBeAsked(said)).toEqual(all.filter((other) => other !== part));
    }
  });

  test('a guessed thickness keeps the shape of the ribs, a given one stays', () => {
    const coarse = give(first, 'lensPitch', 25.4 / 20);
    // 0.84 mm at 60 LPI, three times as thick at 20.
    expect(coarse.lens.thicknessMm).toBeCloseTo(2.52, 6);
    const known = give(give(first, 'lensThickness', 0.9), 'lensPitch', 25.4 / 20);
    expect(known.lens.thicknessMm).toBe(0.9);
    expect(toBeAsked(known)).toEqual(['printer', 'printWidth', 'distance']);
  });

  test('one number for the printer stands for both ways', () => {
    expect(give(first, 'printer', 600).printer).toEqual({ carriageDpi: 600, feedDpi: 600 });
  });

  test('the print keeps the shape of the frames', () => {
    const wide = { ...first, print: { ...first.print, widthMm: 200, heightMm: 150 } };
    expect(give(wide, 'printWidth', 300).print).toMatchObject({ widthMm: 300, heightMm: 225 });
  });
});

describe('numbers given elsewhere', () => {
  const follow = (edit: (job: Job) => Job) => toBeAsked(withoutSaid(first, edit(first)));

  test('on the job sheet', () => {
    expect(follow((job) => setLensPitch(job, 0.5))).not.toContain('lensPitch');
    // The thickness changed in proportion only.
    expect(follow((job) => setLensPitch(job, 0.5))).toContain('lensThickness');
    expect(
      follow((job) => ({ ...job, print: { ...job.print, viewingDistanceMm: 900 } })),
    ).not.toContain('distance');
  });

  test('by a lens sheet from the shelves, also one with the very numbers of the guess', () => {
    const shelves = emptyShelves();
    const { pitchMm, thicknessMm, index } = first.lens;
    const entry = { ...newLens(shelves, 'lens-1'), pitchMm, thicknessMm, index };
    const open = follow((job) => takeLens(job, entry, shelves));
    expect(open).toEqual(['printer', 'printWidth', 'distance']);
  });

  test('undo asks again', () => {
    const document = createDocumentStore({ follow: withoutSaid });
    document.getState().open(first, { jobId: 'a' });
    document.getState().change(...giveOwn('distance', 400));
    expect(toBeAsked(document.getState().job)).not.toContain('distance');
    document.getState().undo();
    expect(toBeAsked(document.getState().job)).toContain('distance');
  });
});
