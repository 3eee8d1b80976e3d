/** The leak that the traced lens and the printed dot alone would give (relation 8). */
import { zoneWidth } from '../../core/lens/traced.ts';
import { standing } from '../../core/lens/focus.ts';
import { sharesSeen } from '../../core/plan/fit.ts';
import { mm } from '../../core/units/units.ts';
import { evenSlots } from '../../core/weave/ghost-wedge.ts';
import type { Job } from '../schema/job.ts';
import { reachOf } from './ghost.ts';
import { printingOf } from './plan.ts';
import { lensOf } from './sheet.ts';

/**
 * Light of the other picture for each unit of a picture's own, seen in the middle of its slots. 0 for a rib that cannot
 * exist, which a finding tells of.
 */
export const expectedLeak = (job: Job): number => {
  const lens = standing(lensOf(job))?.lens;
  if (lens === undefined) return 0;
  const reach = reachOf(job);
  const even = evenSlots(job.viewSlots, reach);
  const middle = Math.floor((job.viewSlots - reach) / 2) + reach / 2;
  const distance = mm(job.print.viewingDistanceMm);
  const eyeMm = (middle / job.viewSlots - 0.5) * zoneWidth(lens, distance);
  const shares = sharesSeen(lens, printingOf(job), job.viewSlots, distance, eyeMm);
  const own = shares.reduce((sum, share, slot) => sum + (even[slot] === true ? share : 0), 0);
  return own === 0 ? Infinity : (1 - own) / own;
};
