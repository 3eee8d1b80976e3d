/** Offcuts: their sizes by hand, and that they are offered where the print fits. */
import { describe, expect, test } from 'vitest';
import { newJob } from '../../src/job/schema/job.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { lensCut } from '../../src/materials/cut-list.ts';
import { leftOver, offcutsOf, offcutsThatFit } from '../../src/materials/offcuts.ts';
import type { LensEntry } from '../../src/materials/shelves.ts';
import { emptyShelves, entryFault } from '../../src/materials/shelves.ts';
import { takeLens } from '../../src/materials/use-in-job.ts';

const sheet: LensEntry = {
  id: 'sheet',
  name: 'Kingfisher sheet',
  ...newJob().lens,
  widthMm: 300,
  heightMm: 400,
  note: '',
};
const job = (print: Partial<Job['print']>, ribs: Job['ribs'] = 'upright'): Job => ({
  ...newJob(),
  ribs,
  stock: { gapMm: 3, lensId: 'sheet' },
  print: { ...newJob().print, ...print },
});
const kept = (from: Job) => {
  let count = 0;
  return offcutsOf(sheet, lensCut(from, sheet), emptyShelves(), () => `left-${(count += 1)}`);
};

describe('what a cut leaves', () => {
  test('a strip beside the pieces, as high as the sheet, and one below them', () => {
    // 2 × 100 mm and two gaps of 3 mm leave 94 of 300; 2 × 150 mm and two gaps leave 94 of 400.
    expect(leftOver(lensCut(job({ widthMm: 100, heightMm: 150 }), sheet))).toEqual([
      { widthMm: 94, heightMm: 400 },
      { widthMm: 203, heightMm: 94 },
    ]);
  });

  test('nothing where it is too narrow to keep, or nothing is cut', () => {
    expect(leftOver(lensCut(job({ widthMm: 290, heightMm: 380 }), sheet))).toEqual([]);
    expect(leftOver(lensCut(job({ widthMm: 310, heightMm: 380 }), sheet))).toEqual([]);
  });

  test('across and along its ribs when they lie', () => {
    // The sheet lies turned: 400 wide, 300 high. 350 wide and a gap leave 47; 200 high and a gap leave 97.
    expect(
      kept(job({ widthMm: 350, heightMm: 200 }, 'lying')).map((one) => [one.widthMm, one.heightMm]),
    ).toEqual([
      [300, 47],
      [97, 350],
    ]);
  });
});

describe('offcuts as stock', () => {
  const left = kept(job({ widthMm: 100, heightMm: 150 }));
  const shelves = { ...emptyShelves(), lenses: [sheet, ...left] };

  test('are paid for, pieces of their sheet, and entries that the shelf takes', () => {
    expect(left.map(({ id, price, offcutOf }) => [id, price, offcutOf])).toEqual([
      ['left-1', 0, 'sheet'],
      ['left-2', 0, 'sheet'],
    ]);
    for (const entry of left) expect(entryFault('lenses', entry)).toBeUndefined();
  });

  test('are offered where the print fits, the smallest first, until one is taken', () => {
    const small = job({ widthMm: 80, heightMm: 90 });
    expect(offcutsThatFit(small, shelves).map(({ id }) => id)).toEqual(['left-2', 'left-1']);
    expect(offcutsThatFit(job({ widthMm: 90, heightMm: 390 }), shelves)).toHaveLength(1);
    expect(offcutsThatFit(job({ widthMm: 200, heightMm: 300 }), shelves)).toEqual([]);
    expect(offcutsThatFit(takeLens(small, left[1]!, shelves), shelves)).toEqual([]);
    const other = { ...small, lens: { ...small.lens, pitchMm: 0.5 } };
    expect(offcutsThatFit(other, shelves)).toEqual([]);
  });

  test('keep the proof of their sheet; another sheet of the same numbers does not', () => {
    const provedPitch = { viewingPitchMm: 0.424, readFromMm: 400, plusMinusLpi: 0.01 };
    const proved: Job = { ...job({}), provedPitch };
    expect(takeLens(proved, left[0]!, shelves).provedPitch).toEqual(provedPitch);
    const back = takeLens(takeLens(proved, left[0]!, shelves), sheet, shelves);
    expect(back.provedPitch).toEqual(provedPitch);
    const other = { ...sheet, id: 'another' };
    expect(takeLens(proved, other, shelves).provedPitch).toBeUndefined();
  });
});
