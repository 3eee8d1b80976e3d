/** Which recipe fills the slots, and its few fields. */
import type { RecipeKind } from '../../../core/frames/recipes.ts';
import { chooseRecipe, recipeKindOf } from '../../../job/edits/recipe.ts';
import { mayFlash } from '../../../job/facts/flash.ts';
import { recipeNames, sayRecipe } from '../../../job/words/recipes.ts';
import { ChoiceField } from '../../../ui/index.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { useJob, useStudio } from '../../studio.ts';
import { ChangeFields } from './ChangeFields.tsx';
import { FlipFields } from './FlipFields.tsx';
import { TitleFields } from '../title/TitleFields.tsx';
import styles from './recipe.module.css';

const kinds = Object.entries(recipeNames).map(([value, label]) => ({
  value: value as RecipeKind,
  label,
}));

export const RecipeFields = () => {
  const studio = useStudio();
  const job = useJob();
  const { recipe } = job;
  const choose = (kind: RecipeKind) => {
    studio.change('recipe', (now) => chooseRecipe(now, kind));
    studio.announce(`${recipeNames[kind]}. ${sayRecipe(studio.document.getState().job)}`);
  };
  return (
    <div className={styles['recipe']}>
      <ChoiceField label="Recipe" choices={kinds} value={recipeKindOf(job)} onChange={choose} />
      {recipe?.kind === 'flip' && <FlipFields job={job} flip={recipe} />}
      {recipe?.kind === 'change' && <ChangeFields job={job} recipe={recipe} />}
      <TitleFields job={job} />
      {mayFlash(job) && <CautionNotes kinds={['flashing']} />}
    </div>
  );
};
