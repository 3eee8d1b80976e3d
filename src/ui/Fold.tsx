import type { ReactNode } from 'react';
import styles from './Fold.module.css';
import { Stack } from './Layout.tsx';

interface Props {
  readonly summary: ReactNode;
  /** Left out, it begins closed and keeps its own state. */
  readonly open?: boolean;
  readonly children: ReactNode;
  onToggle?(open: boolean): void;
}

/** What is wanted seldom, a press away. */
export const Fold = ({ summary, open, children, onToggle }: Props) => (
  <details
    className={styles['fold']}
    open={open}
    onToggle={({ currentTarget }) => onToggle?.(currentTarget.open)}
  >
    <summary>{summary}</summary>
    <Stack gap={4} className={styles['inside']}>
      {children}
    </Stack>
  </details>
);
