import { Button } from '../../ui/index.ts';
import { useDocument } from '../studio.ts';
import styles from './UndoRedo.module.css';
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
  const past = useDocument((state) => state.past.at(-1)?.label);
  const future = useDocument((state) => state.future.at(-1)?.label);
  const undo = useDocument((state) => state.undo);
  const redo = useDocument((state) => state.redo);
  const button = (word: string, label: string | undefined, press: () => void) => (
    <Button
      look="quiet"
      className={styles['button']}
      off={label === undefined}
      onClick={press}
      title={label === undefined ? `Nothing to ${word.toLowerCase()}` : `${word}: ${label}`}
    >
      <Arrow back={word === 'Undo'} />
      <span className={styles['words']}>{label === undefined ? word : `${word}: ${label}`}</span>
    </Button>
  );
  return (
    <div className={styles['pair']}>
      {button('Undo', past, undo)}
      {button('Redo', future, redo)}
    </div>
  );
};
