import { Button } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';
import styles from './UndoRedo.module.css';
import { travel, useStepWords } from './use-undo.ts';
import { useUndoKeys } from './use-undo-keys.ts';

const Arrow = ({ back }: { readonly back: boolean }) => (
  <svg className={styles['arrow']} viewBox="0 0 20 20" aria-hidden="true">
    <path
      d={
        back
          ? 'M7 3 2.5 7.5 7 12M3 7.5h9a5 5 0 0 1 0 10H8'
          : 'M13 3l4.5 4.5L13 12M17 7.5H8a5 5 0 0 0 0 10h4'
      }
    />
  </svg>
);

/** Each says what it would undo or do again; fixed in width, so that nothing beside them moves. */
export const UndoRedo = () => {
  useUndoKeys();
  const studio = useStudio();
  const words = useStepWords();
  const button = (word: string, way: 'undo' | 'redo') => {
    const said = words[way];
    return (
      <Button
        look="quiet"
        className={styles['button']}
        off={said === undefined}
        onClick={() => travel(studio, way)}
        title={said === undefined ? `Nothing to ${way}` : `${word}: ${said}`}
      >
        <Arrow back={way === 'undo'} />
        <span className={styles['words']}>{said === undefined ? word : `${word}: ${said}`}</span>
      </Button>
    );
  };
  return (
    <div className={styles['pair']} data-keeps-focus="">
      {button('Undo', 'undo')}
      {button('Redo', 'redo')}
    </div>
  );
};
