/** What an eye sees of each view slot, from where it should see one picture of a flip. */
import { endInView, flipRuns } from '../../core/frames/flip-ahead.ts';
import { standing } from '../../core/lens/focus.ts';
import { zoneWidth } from '../../core/lens/traced.ts';
import { sharesSeen } from '../../core/plan/fit.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { printingOf } from './plan.ts';
import { flipOf, lensOf } from './sheet.ts';

export interface PictureSeen {
  /** From 0, in the order of the flip. */
  readonly picture: number;
  /** Its own view slots: `from` … `to` − 1. */
  readonly from: number;
  readonly to: number;
  /**
   * By view slot what an eye sees of it, before the middle of that slot of its own which lies next to each change: sums to 1.
   * Further off less of the others is seen, nearer it gives way to the next. The end of the zone counts where it is in view.
   */
  readonly eyes: readonly { readonly slot: number; readonly shares: readonly number[] }[];
}

/** None without a flip, or for a rib that cannot exist. */
export const picturesSeen = (job: Job): readonly PictureSeen[] => {
  const flip = flipOf(job);
  const lens = standing(lensOf(job))?.lens;
  if (flip === undefined || lens === undefined) return [];
  const { viewSlots } = flip;
  const distance = mm(job.print.viewingDistanceMm);
  const zone = zoneWidth(lens, distance);
  const fromSlot = (slot: number) => {
    const eyeMm = ((slot + 0.5) / viewSlots - 0.5) * zone;
    return { slot, shares: sharesSeen(lens, printingOf(job), viewSlots, distance, eyeMm) };
  };
  const runs = flipRuns(flip);
  return runs.map(({ picture, from, to }, at) => {
    const before = at > 0 || endInView(flip) ? [from] : [];
    const after = at < runs.length - 1 || endInView(flip) ? [to - 1] : [];
    return { picture, from, to, eyes: [...new Set([...before, ...after])].map(fromSlot) };
  });
};
