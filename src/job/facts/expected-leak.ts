/** The leak that the traced lens and the printed dot alone would give (relation 8). */
import { mix } from '../../core/lens/mix.ts';
import { evenSlots } from '../../core/weave/ghost-wedge.ts';
import type { Job } from '../schema/job.ts';
import { blurOf } from './eye.ts';
import { reachOf } from './ghost.ts';

/** Light of the other picture for each unit of a picture's own, seen in the middle of its slots. */
export const expectedLeak = (job: Job): number => {
  const reach = reachOf(job);
  const even = evenSlots(job.viewSlots, reach);
  const middle = Math.floor((job.viewSlots - reach) / 2) + reach / 2;
  const shares = mix(1 - middle / job.viewSlots, job.viewSlots, blurOf(job, 0));
  const own = shares.reduce((sum, { slot, share }) => sum + (even[slot] === true ? share : 0), 0);
  return own === 0 ? Infinity : (1 - own) / own;
};
