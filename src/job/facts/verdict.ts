/** Whether to buy or weave, in words: everything that the benches say of this job, the worst first. */
import { zoneWidth } from '../../core/lens/lens.ts';
import { widestFor } from '../../core/plan/tolerance.ts';
import type { Verdict } from '../../core/plan/verdict.ts';
import { verdict } from '../../core/plan/verdict.ts';
import { lpi, mm } from '../../core/units/units.ts';
import { MOST_LEAK } from '../../core/weave/ghost.ts';
import type { Job } from '../schema/job.ts';
import { expectedLeak } from './expected-leak.ts';
import type { LensFacts } from './plan.ts';
import { exactnessOf, eyesApartOf } from './plan.ts';
import { acrossMm, pitchStanding } from './sheet.ts';

/** How wide a print the pitch is known well enough for; undefined once it is proved. */
const pitchKnown = (job: Job) => {
  if (pitchStanding(job) === 'proved') return undefined;
  const { budgetZones, pitchUnsureLpi } = exactnessOf(job);
  return { widestMm: widestFor(budgetZones, lpi(pitchUnsureLpi)), acrossMm: acrossMm(job) };
};

/** @param say a length in the unit that is shown; left out: millimetres. */
export const verdictOf = (
  job: Job,
  facts: LensFacts,
  say?: (lengthMm: number) => string,
): Verdict => {
  const pitch = pitchKnown(job);
  return verdict({
    ...facts,
    viewSlots: job.viewSlots,
    zoneMm: zoneWidth(facts.lens, mm(job.print.viewingDistanceMm)),
    eyesApartMm: eyesApartOf(job),
    partsEyes: job.ribs === 'upright',
    ...(job.viewSlots < 2 ? {} : { leak: { share: expectedLeak(job), most: MOST_LEAK } }),
    ...(pitch === undefined ? {} : { pitch }),
    ...(say === undefined ? {} : { say }),
  });
};
