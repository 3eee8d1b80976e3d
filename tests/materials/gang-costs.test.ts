/** What each of several prints on one lens sheet costs. */
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { gangCostsOf } from '../../src/materials/gang-costs.ts';

const card: Job = {
  ...newJob(),
  print: { widthMm: 50, heightMm: 70, viewingDistanceMm: 400 },
};

test('shares the price of lens, paper and ink among the prints, and names what has none', () => {
  const lens = { price: 12 } as never;
  const printer = { inkPerSquareMetre: 10 } as never;
  const { print } = gangCostsOf(card, { lens, printer, paper: undefined }, 24);
  // 12 / 24 + 10 × 0.3 m × 0.4 m / 24.
  expect(print.known).toBeCloseTo(0.5 + 0.05, 9);
  expect(print.missing).toEqual(['the paper has no price yet']);
});
