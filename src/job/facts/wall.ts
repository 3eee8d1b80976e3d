/** What the job is as a wide print on a wall. */
import { standing } from '../../core/lens/focus.ts';
import { edgeDoubt, edgeFacts, standBetween } from '../../core/plan/wall.ts';
import { lpi, mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensWishOf } from './lens-wish.ts';
import { exactnessOf } from './plan.ts';
import { acrossMm, lensOf, pitchStanding } from './sheet.ts';

/** Wider than this nobody holds a print in the hand (our own value). */
const WIDE_MM = 600;
/** So wide for its distance that the edges are looked at by more than 20° (our own value). */
const WIDE_FOR_DISTANCE = 0.73;
export const isWide = (job: Job): boolean =>
  acrossMm(job) >= WIDE_MM || acrossMm(job) >= WIDE_FOR_DISTANCE * lensWishOf(job).nearMm;

/** Undefined where no rib can have the lens's measures. */
export const edgesOf = (job: Job) => {
  const lens = standing(lensOf(job))?.lens;
  if (lens === undefined) return undefined;
  const across = acrossMm(job);
  const distanceMm = mm(job.print.viewingDistanceMm);
  const setting = { lens, acrossMm: across, distanceMm };
  const { budgetZones, pitchUnsureLpi } = exactnessOf(job);
  return {
    ...edgeFacts(setting),
    between: standBetween(setting, budgetZones),
    budgetZones,
    /** Left out for a proved pitch, whose doubt the strip says. */
    doubtZones:
      pitchStanding(job) === 'proved' ? undefined : edgeDoubt(lpi(pitchUnsureLpi), across),
  };
};
