/** What strip and bar together say of the lens: makers as in tests/core/pitch/makers.ts. */
import { describe, expect, it } from 'vitest';
import { keepWoven, setStrip, stripPlanOf, wovenOf } from '../../../src/job/facts/pitch.ts';
import { lensByBar } from '../../../src/job/facts/strip-lens.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { makerOf, measuredBy } from '../../core/pitch/makers.ts';
import { usualGapAheadMm } from '../../golden/traced-by-bench.ts';

const MAKERS = 300;
const plan = stripPlanOf(newJob(), 'mm');
if (!plan.ok) throw new Error(plan.message);
const strip = wovenOf(newJob(), plan.spec, '2026-11-25');
const job = keepWoven(newJob(), strip);
const reading = (viewingLpi: number) =>
  ({ method: 'fringes', viewingLpi, plusMinusLpi: 0.01 }) as const;

describe('the lens by strip and bar', () => {
  it('is not known before the bar across is measured', () => {
    expect(lensByBar(job, strip, reading(59.9))).toBeUndefined();
    const along = setStrip(job, { measuredAlongMm: strip.barAlongMm });
    expect(lensByBar(along, strip, reading(59.9))).toBeUndefined();
  });

  it('is told apart from the stretch of the print, within its ± in 95 of 100', () => {
    const within = Array.from({ length: MAKERS }, (_, seed) => {
      const maker = makerOf(seed);
      // The lens in true inches; makerOf gives what suits it on stretched paper.
      const lensLpi = maker.suitsLpi / maker.stretchAcross;
      const read = maker.suitsLpi / (1 + usualGapAheadMm / 400) + 0.005 * maker.normal();
      const measuredAcrossMm = measuredBy(maker, strip.barAcrossMm * maker.stretchAcross);
      const told = lensByBar(setStrip(job, { measuredAcrossMm }), strip, reading(read))!;
      expect(told.plusMinus).toBeLessThan(0.11);
      return Math.abs(told.value - lensLpi) <= told.plusMinus;
    }).filter(Boolean);
    expect(within.length).toBeGreaterThanOrEqual(0.95 * MAKERS);
  });
});
