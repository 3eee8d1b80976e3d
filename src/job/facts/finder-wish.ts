/** What the lens finder is asked: the wish in full, and the job's own lens beside it. */
import { standing } from '../../core/lens/focus.ts';
import type { LensOffer, LensUse, LensWish } from '../../core/plan/finder.ts';
import { comfortableDepth } from '../../core/plan/finder.ts';
import type { PresentLens } from '../../core/plan/nearest-change.ts';
import { dpi, mm } from '../../core/units/units.ts';
import { toBeAsked } from '../edits/guessed.ts';
import type { Job } from '../schema/job.ts';
import type { FullLensWish } from './lens-wish.ts';
import { lensWishOf } from './lens-wish.ts';
import { alongMm, depthGainOf, exactnessOf, eyesApartOf } from './plan.ts';
import { acrossMm, lensOf } from './sheet.ts';
import { gridOf } from './printer.ts';

/** Nobody stated a depth: it is as deep as is comfortable. */
const isDepthOpen = ({ frontMm, behindMm }: FullLensWish): boolean =>
  frontMm === undefined && behindMm === undefined;

/**
 * The job's own lens, as it stands on the job sheet. Undefined as long as it is only guessed, and where no rib can have
 * its measures. @param offer who it is, and its price
 */
export const presentLens = (job: Job, offer: Omit<LensOffer, 'lens'>): PresentLens | undefined => {
  const stands = standing(lensOf(job));
  if (stands === undefined || toBeAsked(job).includes('lensPitch')) return undefined;
  return {
    offer: { ...offer, lens: stands.lens },
    wish: { ...finderWish(job), gain: depthGainOf(job), frames: job.viewSlots },
    depthFollows: isDepthOpen(lensWishOf(job)),
  };
};

/** For the finder. */
export const finderWish = (job: Job): LensWish => {
  const full = lensWishOf(job);
  const { use, pictures, nearMm, farMm, frontMm, behindMm, mostPrice } = full;
  const uses: Readonly<Record<typeof use, LensUse>> = {
    depth: { kind: 'depth' },
    flip: { kind: 'flip', pictures },
    animation: { kind: 'animation' },
  };
  return {
    use: uses[use],
    acrossMm: acrossMm(job),
    alongMm: alongMm(job),
    nearMm: mm(nearMm),
    farMm: mm(farMm),
    acrossDpi: dpi(gridOf(job).acrossDpi),
    columns: job.columns,
    eyesApartMm: eyesApartOf(job),
    budgetZones: exactnessOf(job).budgetZones,
    depth: isDepthOpen(full)
      ? comfortableDepth(mm(nearMm), eyesApartOf(job))
      : { frontMm: mm(-(frontMm ?? 0)), behindMm: mm(behindMm ?? 0) },
    gain: depthGainOf(job),
    ...(mostPrice === undefined ? {} : { mostPrice }),
  };
};
