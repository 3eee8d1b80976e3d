/** The job as a flip that people walk past. */
import { standing } from '../../core/lens/focus.ts';
import type { WalkPast } from '../../core/plan/walk-past.ts';
import { eyesApartShare, MOST_FLASHES, turningOf, walkPast } from '../../core/plan/walk-past.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensWishOf } from './lens-wish.ts';
import { eyesApartOf } from './plan.ts';
import { lensOf, slotsOf } from './sheet.ts';

/** Nobody walks past what is looked at from within arm’s reach (our own value). */
const PASSED_FROM_MM = 1000;

/** White or black between the pictures, as the slots are filled now. */
const plainBetween = (job: Job): boolean =>
  slotsOf(job).some(({ plain }) => plain === 'white' || plain === 'black');

export interface Passing extends WalkPast {
  readonly pictures: number;
  /** Share of the way over which two eyes see different pictures. */
  readonly apart: number;
  readonly flashes: boolean;
}

/** A flip as it goes by at the nearest place it is seen from. Undefined for whatever else, and without a rib. */
export const passingOf = (job: Job): Passing | undefined => {
  const { use, pictures, nearMm } = lensWishOf(job);
  const lens = standing(lensOf(job))?.lens;
  if (use !== 'flip' || lens === undefined) return undefined;
  const distance = mm(nearMm);
  const past = walkPast(lens, distance, turningOf(pictures, plainBetween(job)));
  return {
    ...past,
    pictures,
    apart: eyesApartShare(lens, distance, pictures, eyesApartOf(job)),
    flashes: past.flashesASecond > MOST_FLASHES,
  };
};

/** People can walk past it: upright ribs turn sideways, and it is seen from beyond arm’s reach. */
export const isWalkedPast = (job: Job): boolean =>
  job.ribs === 'upright' && lensWishOf(job).farMm >= PASSED_FROM_MM;
