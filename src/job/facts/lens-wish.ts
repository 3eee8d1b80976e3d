/** What lens the job asks for: what the person wished, and for the rest what the job has. */
import { standing } from '../../core/lens/focus.ts';
import type { LensOffer, LensUse, LensWish } from '../../core/plan/finder.ts';
import { comfortableDepth } from '../../core/plan/finder.ts';
import type { PresentLens } from '../../core/plan/nearest-change.ts';
import { dpi, mm } from '../../core/units/units.ts';
import { editsOf } from '../edits/edit.ts';
import { toBeAsked } from '../edits/guessed.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { KeptLensWish } from '../schema/lens-wish.ts';
import { alongMm, depthGainOf, depthMarksOf, exactnessOf, eyesApartOf } from './plan.ts';
import { acrossMm, lensOf } from './sheet.ts';

export const setLensWish = (job: Job, change: ChangeOf<KeptLensWish>): Job => ({
  ...job,
  lensWish: changed(job.lensWish ?? {}, change),
});

export const changeLensWish = editsOf('lens wish', setLensWish);

const useOf = ({ recipe, ribs }: Job): LensUse['kind'] => {
  if (recipe?.kind === 'flip') return 'flip';
  return recipe?.kind === 'animation' || ribs === 'lying' ? 'animation' : 'depth';
};

/** The farthest things on the depth ruler, before the print and behind it. */
const marked = (job: Job): Pick<KeptLensWish, 'frontMm' | 'behindMm'> => {
  const depths = depthMarksOf(job).map(({ zMm }) => zMm);
  const [front, behind] = [-Math.min(0, ...depths), Math.max(0, ...depths)];
  return { ...(front > 0 ? { frontMm: front } : {}), ...(behind > 0 ? { behindMm: behind } : {}) };
};

/** With everything filled in that the job says; depths and price are left out where nobody knows them. */
export interface FullLensWish {
  readonly use: LensUse['kind'];
  readonly pictures: number;
  readonly nearMm: number;
  readonly farMm: number;
  readonly frontMm?: number | undefined;
  readonly behindMm?: number | undefined;
  readonly mostPrice?: number | undefined;
}

export const lensWishOf = (job: Job): FullLensWish => {
  const distance = job.print.viewingDistanceMm;
  const kept = job.lensWish ?? {};
  const pictures = job.recipe?.kind === 'flip' ? job.recipe.pictures.length : 2;
  const nearMm = kept.nearMm ?? Math.min(distance, kept.farMm ?? distance);
  const { frontMm, behindMm } = { ...marked(job), ...kept };
  return {
    use: kept.use ?? useOf(job),
    pictures: kept.pictures ?? pictures,
    frontMm,
    behindMm,
    mostPrice: kept.mostPrice,
    nearMm,
    farMm: Math.max(nearMm, kept.farMm ?? distance),
  };
};

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
    acrossDpi: dpi(job.printer.acrossDpi),
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
