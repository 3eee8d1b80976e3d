/** What the job is as a print on a wall, or as a flip that is walked past. */
import type { LensSheet } from '../../core/lens/lens.ts';
import { standing } from '../../core/lens/focus.ts';
import type { WalkPast } from '../../core/plan/wall.ts';
import {
  edgeDoubt,
  edgeFacts,
  eyesApartShare,
  MOST_FLASHES,
  standBetween,
  turningOf,
  walkPast,
} from '../../core/plan/wall.ts';
import { lpi, mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensWishOf } from './lens-wish.ts';
import { exactnessOf, eyesApartOf } from './plan.ts';
import { acrossMm, lensOf, pitchStanding, slotsOf } from './sheet.ts';

/** Wider than this nobody holds a print in the hand (our own value). */
const WIDE_MM = 600;
/** So wide for its distance that the edges are looked at by more than 20° (our own value). */
const WIDE_FOR_DISTANCE = 0.73;
/** Nobody walks past what is looked at from within arm’s reach (our own value). */
const PASSED_FROM_MM = 1000;

export const isWide = (job: Job): boolean =>
  acrossMm(job) >= WIDE_MM || acrossMm(job) >= WIDE_FOR_DISTANCE * lensWishOf(job).nearMm;

const ribOf = (job: Job): LensSheet | undefined => standing(lensOf(job))?.lens;

/** Undefined where no rib can have the lens's measures. */
export const edgesOf = (job: Job) => {
  const lens = ribOf(job);
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
  const lens = ribOf(job);
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
