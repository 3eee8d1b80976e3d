import type { Theme } from '../../state/view.ts';
import { ChoiceField } from '../../ui/index.ts';
import { useView } from '../studio.ts';
import styles from './Masthead.module.css';
import { UndoRedo } from './UndoRedo.tsx';

const themes: readonly { value: Theme; label: string }[] = [
  { value: 'system', label: 'System' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
];

/** Seven ribs and the pictures under them. */
const Mark = () => (
  <svg className={styles['mark']} viewBox="0 0 44 28" aria-hidden="true">
    <path d="M2 18a4 4 0 0 1 8 0 4 4 0 0 1 8 0 4 4 0 0 1 8 0 4 4 0 0 1 8 0 4 4 0 0 1 8 0" />
    <path className={styles['weft']} d="M2 24h2.6M10 24h2.6M18 24h2.6M26 24h2.6M34 24h2.6" />
    <path className={styles['ray']} d="M22 14 33 3M14 14 25 3" />
  </svg>
);

export const ThemeChoice = () => {
  const theme = useView((view) => view.theme);
  const set = useView((view) => view.set);
  return (
    <ChoiceField
      compact
      label="Theme"
      choices={themes}
      value={theme}
      onChange={(value) => set({ theme: value })}
    />
  );
};

export const Masthead = () => (
  <header className={styles['masthead']}>
    <p className={styles['name']}>
      <Mark />
      Tiltloom
    </p>
    <UndoRedo />
    <div className={styles['theme']}>
      <ThemeChoice />
    </div>
  </header>
);
