import type { ComponentProps, ReactNode } from 'react';
import { Button } from './Button.tsx';
import { ProgressBar } from './ProgressBar.tsx';
import styles from './UnderWay.module.css';

interface Props extends ComponentProps<typeof ProgressBar> {
  /** Stands between the bar and its button. */
  readonly children?: ReactNode;
  /** What the button says. */
  readonly stop?: string;
  onStop(): void;
}

/** Work that is under way: how far it is, and the button that stops it. */
export const UnderWay = ({ children, stop = 'Stop', onStop, ...progress }: Props) => (
  <div className={styles['line']}>
    <ProgressBar {...progress} />
    {children}
    <Button onClick={onStop}>{stop}</Button>
  </div>
);
