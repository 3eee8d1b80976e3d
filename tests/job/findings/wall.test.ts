/** A flip that flashes for people who walk past: told where they can, and only there. */
import { expect, test } from 'vitest';
import { tracedGap } from '../../../src/core/lens/traced.ts';
import { planFindings } from '../../../src/job/findings/plan.ts';
import { isWide } from '../../../src/job/facts/wall.ts';
import { lensOf } from '../../../src/job/facts/sheet.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

/** Three times the pitch thick: a narrow cone. */
const job = (change: Partial<Job>): Job => ({
  ...newJob(),
  lens: { pitchMm: 25.4 / 20, thicknessMm: 4.6, index: 1.57 },
  lensWish: { use: 'flip', pictures: 2, nearMm: 500, farMm: 1500 },
  ...change,
});
const told = (of: Job) => planFindings(of).find(({ id }) => id === 'flashes-walked-past');

test('flashes a second are walking pace over the zone, a flash for each two pictures', () => {
  const lens = lensOf(job({}));
  const zone = (lens.pitchMm * 500) / tracedGap(lens);
  const flashes = 1462 / zone;
  expect(flashes).toBeGreaterThan(3);
  expect(told(job({}))?.figure).toContain(`up to ${flashes.toFixed(1)} flashes a second`);
  expect(told(job({}))?.remedy).toContain(`at least ${Math.ceil((500 * flashes) / 3)} mm`);
});

test('not for lying ribs, for a print in the hand, from far enough, or for depth', () => {
  expect(told(job({ ribs: 'lying' }))).toBeUndefined();
  expect(
    told(job({ lensWish: { use: 'flip', pictures: 2, nearMm: 300, farMm: 500 } })),
  ).toBeUndefined();
  expect(
    told(job({ lensWish: { use: 'flip', pictures: 2, nearMm: 2000, farMm: 3000 } })),
  ).toBeUndefined();
  expect(told(job({ lensWish: { use: 'depth', nearMm: 500, farMm: 1500 } }))).toBeUndefined();
});

test('wide is what hangs on a wall, or what is looked at steeply', () => {
  const sized = (widthMm: number, nearMm: number) =>
    isWide(job({ print: { widthMm, heightMm: 200, viewingDistanceMm: nearMm }, lensWish: {} }));
  expect(sized(203, 400)).toBe(false);
  expect(sized(203, 200)).toBe(true);
  expect(sized(700, 3000)).toBe(true);
});
