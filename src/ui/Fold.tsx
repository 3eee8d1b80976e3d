import type { ReactNode } from 'react';
import styles from './Fold.module.css';
import { Stack } from './Layout.tsx';

interface Props {
  readonly summary: ReactNode;
  readonly children: ReactNode;
}

/** What is wanted seldom, a press away. */
export const Fold = ({ summary, children }: Props) => (
  <details className={styles['fold']}>
    <summary>{summary}</summary>
    <Stack gap={4} className={styles['inside']}>
      {children}
    </Stack>
  </details>
);
