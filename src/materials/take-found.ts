/** Takes a lens that was found into the job. */
import type { FoundLens } from '../core/plan/finder.ts';
import { setViewSlots, unproved } from '../job/edits/consequences.ts';
import type { Job } from '../job/schema/job.ts';
import type { Shelves } from './shelves.ts';
import { setStock, takeLens } from './use-in-job.ts';

/** View slots become as many as there are frames for it; a flip has as many as its recipe lays out. */
export const takeFound = (job: Job, found: FoundLens, shelves: Shelves): Job => {
  const entry = shelves.lenses.find(({ id }) => id === found.id);
  const { pitchMm, thicknessMm, index } = found.lens;
  const withLens =
    entry === undefined
      ? setStock({ ...unproved(job), lens: { pitchMm, thicknessMm, index } }, { lensId: undefined })
      : takeLens(job, entry, shelves);
  return job.recipe?.kind === 'flip'
    ? withLens
    : setViewSlots(withLens, Math.max(2, Math.min(200, found.frames)));
};
