/** Which lenses are offered, which of them is the job's, and that pieces are used up first. */
import { expect, test } from 'vitest';
import { findLenses } from '../../src/core/plan/finder.ts';
import { finderWish } from '../../src/job/facts/finder-wish.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { isInUse, lensOffers, offerInUse } from '../../src/materials/lens-offers.ts';
import type { LensEntry, Shelves } from '../../src/materials/shelves.ts';
import { addEntry, emptyShelves } from '../../src/materials/shelves.ts';
import { takeFound } from '../../src/materials/take-found.ts';
import { newLens } from '../../src/materials/use-in-job.ts';

const sheet: LensEntry = { ...newEntry('sheet'), name: 'My 60' };
const offcut: LensEntry = {
  ...newEntry('piece'),
  name: 'A piece of it',
  offcutOf: 'sheet',
  price: 0,
};
const small: LensEntry = { ...offcut, id: 'small', widthMm: 100 };

function newEntry(id: string): LensEntry {
  return { ...newLens(emptyShelves(), id), widthMm: 300, heightMm: 300, price: 12 };
}

const shelves: Shelves = [sheet, offcut, small].reduce(
  (all, entry) => addEntry(all, 'lenses', entry),
  emptyShelves(),
);
const job: Job = newJob();

test('an offcut is one, comes before the sheet it is a piece of, and is left out where the print is wider', () => {
  const found = findLenses(finderWish(job), lensOffers(job, shelves));
  const own = found.filter(({ source }) => source === 'own');
  expect(own.map(({ id, isOffcut }) => [id, isOffcut])).toEqual([
    ['piece', true],
    ['sheet', undefined],
  ]);
});

test('in use only with every figure the job’s, index and radius too', () => {
  const offers = lensOffers(job, shelves);
  const found = findLenses(finderWish(job), offers);
  for (const one of found) {
    const taken = takeFound(job, one, shelves);
    expect(isInUse(taken, one), one.name).toBe(true);
    for (const other of found) if (other !== one) expect(isInUse(taken, other)).toBe(false);
    const otherIndex = { ...taken, lens: { ...taken.lens, index: taken.lens.index + 0.01 } };
    expect(isInUse(otherIndex, one)).toBe(false);
    const otherRadius = { ...taken, lens: { ...taken.lens, radiusMm: 0.31 } };
    expect(isInUse(otherRadius, one)).toBe(false);
  }
});

test('who the lens in use is', () => {
  const first = findLenses(finderWish(job), lensOffers(job, shelves)).find(
    ({ source }) => source === 'own',
  );
  if (first === undefined) throw new Error('there are lenses');
  expect(offerInUse(job, shelves).name).toBe('The lens on the job sheet');
  const taken = takeFound(job, first, shelves);
  expect(offerInUse(taken, shelves)).toMatchObject({ id: first.id, name: first.name });
  const changed = { ...taken, lens: { ...taken.lens, thicknessMm: 0.9 } };
  expect(offerInUse(changed, shelves).name).toBe('The lens on the job sheet');
});
