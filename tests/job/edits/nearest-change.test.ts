/** A change that was found, carried out on the job: the lens on the job sheet then does what is wished. */
import { describe, expect, test } from 'vitest';
import { lookAtLens } from '../../../src/core/plan/finder.ts';
import { whatWouldWork } from '../../../src/core/plan/nearest-change.ts';
import { applyChange } from '../../../src/job/edits/nearest-change.ts';
import { lensWishOf } from '../../../src/job/facts/lens-wish.ts';
import { presentLens } from '../../../src/job/facts/finder-wish.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { sayChange, sayWhatWouldWork } from '../../../src/job/words/what-would-work.ts';

const job = (change: Partial<Job>): Job => ({ ...newJob(), ...change });
const who = { id: 'mine', name: 'Mine', source: 'own' } as const;

const ask = (of: Job) => {
  const present = presentLens(of, who);
  if (present === undefined) throw new Error('there is a lens');
  return present;
};
const answer = (of: Job) => whatWouldWork(ask(of));
const isMet = (of: Job) => lookAtLens(ask(of).wish, ask(of).offer).short.length === 0;

/** From where a depth is stated, where it is marked on the ruler, and where it follows; distances kept and not. */
const jobs: readonly (readonly [string, Job])[] = [
  ['depth stated, distance by the job', job({ lensWish: { frontMm: 9, behindMm: 3 } })],
  [
    'depth by the ruler',
    job({
      depthMarks: [
        { name: 'A', zMm: -3 },
        { name: 'B', zMm: 9 },
      ],
    }),
  ],
  ['depth as is comfortable', job({})],
  ['both distances kept', job({ lensWish: { nearMm: 900, farMm: 1800, behindMm: 9 } })],
  ['only the farthest kept', job({ lensWish: { farMm: 900, frontMm: 6.5 } })],
  ['only the nearest kept', job({ lensWish: { nearMm: 300, frontMm: 5.5, behindMm: 7 } })],
  ['lying ribs', job({ ribs: 'lying', lensWish: { use: 'depth', behindMm: 8 } })],
  ['a flip', job({ lensWish: { use: 'flip', pictures: 7 } })],
  ['a movement', job({ viewSlots: 30, lensWish: { use: 'animation' } })],
  ['seen from far and deep', job({ lensWish: { nearMm: 600, farMm: 2600, frontMm: 40 } })],
];

describe.each(jobs)('%s', (_, before) => {
  test('is not met, and each change that is told meets it', () => {
    expect(isMet(before)).toBe(false);
    const { single, pair } = answer(before);
    const changes = pair === undefined ? single : [pair];
    expect(changes.length).toBeGreaterThan(0);
    for (const change of changes)
      expect(isMet(applyChange(before, change)), JSON.stringify(change)).toBe(true);
  });
});

test('the print is woven for a place within the wish, and the wish goes with it in proportion', () => {
  const before = job({ lensWish: { nearMm: 900, farMm: 1800, behindMm: 9 } });
  const after = applyChange(before, { distance: 700 });
  expect(lensWishOf(after)).toMatchObject({ nearMm: 700, farMm: 1400 });
  expect(after.print.viewingDistanceMm).toBe(700);
  const within = job({
    print: { ...before.print, viewingDistanceMm: 1000 },
    lensWish: { nearMm: 500, farMm: 1500 },
  });
  expect(applyChange(within, { distance: 700 }).print.viewingDistanceMm).toBe(1400);
});

test('a smaller print has its things nearer, and keeps its shape', () => {
  const before = job({ depthMarks: [{ name: 'A', zMm: -20 }] });
  const after = applyChange(before, { size: 101.6 });
  expect(after.print).toMatchObject({ widthMm: 101.6, heightMm: 127 });
  expect(after.depthMarks).toEqual([{ name: 'A', zMm: -10 }]);
});

test('a lens that is only guessed is nobody’s', () => {
  expect(presentLens(job({ guessed: ['lensPitch'] }), who)).toBeUndefined();
});

test('in words: what to do, and what it is now', () => {
  const say = (length: number) => `${length.toFixed(0)} mm`;
  const before = job({ lensWish: { nearMm: 900, farMm: 1800 } });
  expect(sayChange(before, { distance: 1000, gain: 0.5 }, say)).toEqual({
    act: 'Look from 1000 mm to 2000 mm and set depth gain to 0.5',
    now: 'Now from 900 mm to 1800 mm; now 1; it flattens the scene.',
  });
  expect(sayChange(before, { size: 101.6 }, say).act).toBe('Print 102 mm × 127 mm');
  expect(sayWhatWouldWork(answer(job({ lensWish: { behindMm: 4 } })))).toBe(
    'It does all of it as it is.',
  );
});
