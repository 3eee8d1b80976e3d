import { guessWords, toBeAsked } from '../../job/edits/guessed.ts';
import { Button } from '../../ui/index.ts';
import { useJob, useView } from '../studio.ts';
import styles from './Docket.module.css';
import { asking, useIsAsking } from './use-asking.ts';

/** Which numbers of the job sheet nobody has given yet, while they are not asked for. */
export const GuessedLine = () => {
  const open = toBeAsked(useJob());
  const isAsking = useIsAsking();
  const set = useView((view) => view.set);
  if (open.length === 0 || isAsking) return null;
  return (
    <p className={styles['guessed']}>
      Only guessed: {open.map((part) => guessWords[part]).join(', ')}.{' '}
      <Button look="quiet" onClick={() => set(asking)}>
        Say what you have
      </Button>
    </p>
  );
};
