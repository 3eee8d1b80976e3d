/** Edits of the recipe for the view slots, as pure changes of the job. */
import type { RecipeKind } from '../../core/frames/recipes.ts';
import { advisedGuardSlots, mostGuardSlots } from '../../core/frames/recipes.ts';
import { slotFrames } from '../../core/frames/slots.ts';
import type { Job } from '../schema/job.ts';
import { lensFacts } from '../facts/plan.ts';
import { sequenceOf } from '../facts/sheet.ts';

type JobRecipe = NonNullable<Job['recipe']>;
export type Flip = Extract<JobRecipe, { kind: 'flip' }>;
export type Change = Extract<JobRecipe, { kind: 'change' }>;

export const recipeKindOf = (job: Job): RecipeKind => job.recipe?.kind ?? 'depth';

/** Guard slots between neighbours of a flip, from how far this lens and printer spread a view. */
export const guardAdviceOf = (job: Job): number | undefined => {
  const facts = lensFacts(job);
  return facts === undefined ? undefined : advisedGuardSlots(facts.matrix);
};

/** Pictures taken evenly from the sequence, first and last among them; '' where there are none. */
const evenPictures = (job: Job, count: number): string[] => {
  const ids = sequenceOf(job).map(({ id }) => id);
  if (ids.length < count) return Array.from({ length: count }, (_, i) => ids[i] ?? '');
  return slotFrames(ids.length, count).map((index) => ids[index] as string);
};

const usualRecipe = (job: Job, kind: RecipeKind): JobRecipe | undefined => {
  if (kind === 'depth') return undefined;
  if (kind === 'flip') {
    const guards = Math.min(guardAdviceOf(job) ?? 1, mostGuardSlots(2, job.viewSlots));
    return { kind, pictures: evenPictures(job, 2), guardSlots: guards, guard: 'mean' };
  }
  if (kind !== 'change') return { kind };
  const half = Math.ceil(sequenceOf(job).length / 2);
  const second = sequenceOf(job)
    .slice(half)
    .map(({ id }) => id);
  return { kind, second, crossAt: 0.5, crossWidth: 0.5 };
};

export const setRecipe = (job: Job, recipe: JobRecipe | undefined): Job => {
  const { recipe: before, ...rest } = job;
  if (JSON.stringify(before) === JSON.stringify(recipe)) return job;
  return recipe === undefined ? rest : { ...rest, recipe };
};

/** Another recipe, begun with what this job suggests. */
export const chooseRecipe = (job: Job, kind: RecipeKind): Job =>
  kind === recipeKindOf(job) ? job : setRecipe(job, usualRecipe(job, kind));

/** Changes fields of a flip; no change where the recipe is another. */
export const editFlip = (job: Job, change: Partial<Omit<Flip, 'kind'>>): Job =>
  job.recipe?.kind === 'flip' ? setRecipe(job, { ...job.recipe, ...change }) : job;

export const editChange = (job: Job, change: Partial<Omit<Change, 'kind'>>): Job =>
  job.recipe?.kind === 'change' ? setRecipe(job, { ...job.recipe, ...change }) : job;

export const choosePicture = (job: Job, place: number, frameId: string): Job =>
  job.recipe?.kind === 'flip'
    ? editFlip(job, {
        pictures: job.recipe.pictures.map((id, at) => (at === place ? frameId : id)),
      })
    : job;

/** More pictures: those chosen stay, the new ones come from the frames not yet in use. */
export const setPictureCount = (job: Job, count: number): Job => {
  if (job.recipe?.kind !== 'flip') return job;
  const { pictures } = job.recipe;
  const spare = sequenceOf(job)
    .map(({ id }) => id)
    .filter((id) => !pictures.includes(id));
  return editFlip(job, {
    pictures: Array.from({ length: count }, (_, at) => pictures[at] ?? spare.shift() ?? ''),
  });
};

/** Puts a frame into the first or the second set of a change. */
export const putInSet = (job: Job, frameId: string, set: 'first' | 'second'): Job => {
  if (job.recipe?.kind !== 'change') return job;
  const chosen = new Set(job.recipe.second);
  if (set === 'second') chosen.add(frameId);
  else chosen.delete(frameId);
  const second = sequenceOf(job)
    .map(({ id }) => id)
    .filter((id) => chosen.has(id));
  return editChange(job, { second });
};

/** The second half of the sequence is the second set: two renders of one row of cameras. */
export const splitInHalves = (job: Job): Job =>
  editChange(job, {
    second: sequenceOf(job)
      .slice(Math.ceil(sequenceOf(job).length / 2))
      .map(({ id }) => id),
  });

/** The recipe of the sequence turned round: what the first slot showed, the last one shows. */
export const reversedRecipe = (job: Job, recipe: JobRecipe): JobRecipe => {
  if (recipe.kind === 'flip') return { ...recipe, pictures: [...recipe.pictures].reverse() };
  if (recipe.kind !== 'change') return recipe;
  const before = new Set(recipe.second);
  const second = sequenceOf(job)
    .map(({ id }) => id)
    .filter((id) => !before.has(id));
  return { ...recipe, second: second.reverse(), crossAt: 1 - recipe.crossAt };
};
