/** Which recipe fills the slots, and its few fields. */
import type { RecipeKind } from '../../../core/frames/recipes.ts';
import { chooseRecipe, recipeKindOf } from '../../../job/edits/recipe.ts';
import { documentStore } from '../../../state/document.ts';
import { useJob } from '../../../state/hooks.ts';
import { ChoiceField } from '../../../ui/index.ts';
import { announce } from '../../../studio/frames/live.ts';
import { ChangeFields } from './ChangeFields.tsx';
import { FlipFields } from './FlipFields.tsx';
import { TitleFields } from './TitleFields.tsx';
import styles from './recipe.module.css';
import { recipeNames, sayRecipe } from '../../../job/words/recipes.ts';

const kinds = Object.entries(recipeNames).map(([value, label]) => ({
  value: value as RecipeKind,
  label,
}));

const choose = (kind: RecipeKind): void => {
  documentStore.getState().change('recipe', (job) => chooseRecipe(job, kind));
  announce(`${recipeNames[kind]}. ${sayRecipe(documentStore.getState().job)}`);
};

export const RecipeFields = () => {
  const job = useJob();
  const { recipe } = job;
  return (
    <div className={styles['recipe']}>
      <ChoiceField label="Recipe" choices={kinds} value={recipeKindOf(job)} onChange={choose} />
      {recipe?.kind === 'flip' && <FlipFields job={job} flip={recipe} />}
      {recipe?.kind === 'change' && <ChangeFields job={job} change={recipe} />}
      <TitleFields job={job} />
    </div>
  );
};
