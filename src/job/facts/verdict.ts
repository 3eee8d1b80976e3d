/** The verdict on the plan in words, the worst first. */
import { zoneWidth } from '../../core/lens/traced.ts';
import { widestFor } from '../../core/plan/tolerance.ts';
import type { Verdict } from '../../core/plan/verdict.ts';
import { verdict } from '../../core/plan/verdict.ts';
import { lpi, mm } from '../../core/units/units.ts';
import { MOST_LEAK } from '../../core/weave/ghost.ts';
import type { Job } from '../schema/job.ts';
import { expectedLeak } from './expected-leak.ts';
import type { LensFacts } from './plan.ts';
import { exactnessOf, eyesApartOf } from './plan.ts';
import { printsDepth } from './prints-depth.ts';
import { acrossMm, pitchStanding } from './sheet.ts';

/** The widest print for which the pitch is known well enough; undefined once it is proved. */
const pitchKnown = (job: Job) => {
  if (pitchStanding(job) === 'proved') return undefined;
  const { budgetZones, pitchUnsureLpi } = exactnessOf(job);
  return { widestMm: widestFor(budgetZones, lpi(pitchUnsureLpi)), acrossMm: acrossMm(job) };
};

/** @param say says a length in the shown unit; left out: millimetres. */
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
    printsDepth: printsDepth(job),
    ...(job.viewSlots < 2 ? {} : { leak: { share: expectedLeak(job), most: MOST_LEAK } }),
    ...(pitch === undefined ? {} : { pitch }),
    ...(say === undefined ? {} : { say }),
  });
};
