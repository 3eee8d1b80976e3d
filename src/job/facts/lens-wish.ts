/** What lens the job asks for: what the person wished, and for the rest what the job has. */
import type { LensUse } from '../../core/plan/finder.ts';
import { editsOf } from '../edits/edit.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { KeptLensWish } from '../schema/lens-wish.ts';
import { depthMarksOf } from './plan.ts';

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
