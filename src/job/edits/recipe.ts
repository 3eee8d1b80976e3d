/** Edits of the recipe for the view slots, as pure changes of the job. */
import type { RecipeKind } from '../../core/frames/recipes.ts';
import type { Ahead, FlipSpec } from '../../core/frames/flip-ahead.ts';
import { mostGuardSlots, reversedAhead } from '../../core/frames/flip-ahead.ts';
import { advisedGuardSlots } from '../../core/frames/recipes.ts';
import { slotFrames } from '../../core/frames/slots.ts';
import type { Job } from '../schema/job.ts';
import { lensFacts } from '../facts/plan.ts';
import { sequenceOf } from '../facts/sheet.ts';

type JobRecipe = NonNullable<Job['recipe']>;
export type Flip = Extract<JobRecipe, { kind: 'flip' }>;
export type Change = Extract<JobRecipe, { kind: 'change' }>;

/** The flip as it lies in the slots, pictures that are not chosen yet included. */
export const layoutOf = ({ pictures, guardSlots, ahead }: Flip, viewSlots: number): FlipSpec => ({
  pictures: pictures.length,
  guardSlots,
  viewSlots,
  ahead,
});

const idsOf = (job: Job): string[] => sequenceOf(job).map(({ id }) => id);

export const recipeKindOf = (job: Job): RecipeKind => job.recipe?.kind ?? 'depth';

/** Guard slots between neighbours of a flip, from how far this lens and printer spread a view. */
export const guardAdviceOf = (job: Job): number | undefined => {
  const facts = lensFacts(job);
  return facts === undefined ? undefined : advisedGuardSlots(facts.matrix);
};

/** Pictures taken evenly from the sequence, with the first and the last; '' where there are none. */
const evenPictures = (job: Job, count: number): string[] => {
  const ids = idsOf(job);
  if (ids.length < count) return Array.from({ length: count }, (_, i) => ids[i] ?? '');
  return slotFrames(ids.length, count).map((index) => ids[index] as string);
};

const usualRecipe = (job: Job, kind: RecipeKind): JobRecipe | undefined => {
  if (kind === 'depth') return undefined;
  if (kind === 'flip') {
    const guards = Math.min(
      guardAdviceOf(job) ?? 1,
      mostGuardSlots({ pictures: 2, guardSlots: 0, viewSlots: job.viewSlots }),
    );
    return { kind, pictures: evenPictures(job, 2), guardSlots: guards, guard: 'mean' };
  }
  if (kind !== 'change') return { kind };
  return { kind, second: secondHalf(job), crossAt: 0.5, crossWidth: 0.5 };
};

const secondHalf = (job: Job): string[] => {
  const ids = idsOf(job);
  return ids.slice(Math.ceil(ids.length / 2));
};

export const setRecipe = (job: Job, recipe: JobRecipe | undefined): Job => {
  const { recipe: before, ...rest } = job;
  if (JSON.stringify(before) === JSON.stringify(recipe)) return job;
  return recipe === undefined ? rest : { ...rest, recipe };
};

/** Changes the recipe, with settings that suit this job. */
export const chooseRecipe = (job: Job, kind: RecipeKind): Job =>
  kind === recipeKindOf(job) ? job : setRecipe(job, usualRecipe(job, kind));

/** Changes fields of a flip; another recipe stays as it is. */
export const editFlip = (job: Job, change: Partial<Omit<Flip, 'kind'>>): Job =>
  job.recipe?.kind === 'flip' ? setRecipe(job, { ...job.recipe, ...change }) : job;

export const editChange = (job: Job, change: Partial<Omit<Change, 'kind'>>): Job =>
  job.recipe?.kind === 'change' ? setRecipe(job, { ...job.recipe, ...change }) : job;

/** What an eye straight ahead sees of a flip. */
export const setAhead = (job: Job, ahead: Ahead): Job => editFlip(job, { ahead });

export const choosePicture = (job: Job, place: number, frameId: string): Job =>
  job.recipe?.kind === 'flip'
    ? editFlip(job, {
        pictures: job.recipe.pictures.map((id, at) => (at === place ? frameId : id)),
      })
    : job;

/** Chosen pictures stay; further ones come from the frames that are not in use. */
export const setPictureCount = (job: Job, count: number): Job => {
  if (job.recipe?.kind !== 'flip') return job;
  const { pictures } = job.recipe;
  const spare = idsOf(job).filter((id) => !pictures.includes(id));
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
  return editChange(job, { second: idsOf(job).filter((id) => chosen.has(id)) });
};

/** Makes the second half of the sequence the second set: two renders of one row of cameras. */
export const splitInHalves = (job: Job): Job => editChange(job, { second: secondHalf(job) });

/** The recipe for the reversed sequence: the last slot shows what the first one showed. */
export const reversedRecipe = (job: Job, recipe: JobRecipe): JobRecipe => {
  if (recipe.kind === 'flip') {
    const { ahead, pictures } = recipe;
    const turned = ahead && { ahead: reversedAhead(ahead, pictures.length) };
    return { ...recipe, pictures: [...pictures].reverse(), ...turned };
  }
  if (recipe.kind !== 'change') return recipe;
  const before = new Set(recipe.second);
  const second = idsOf(job).filter((id) => !before.has(id));
  return { ...recipe, second: second.reverse(), crossAt: 1 - recipe.crossAt };
};
