import type { ReactNode } from 'react';
import { Stack } from '../../ui/index.ts';
import styles from './mount.module.css';

interface Props {
  readonly title: string;
  readonly children: ReactNode;
}

/** A part of a panel under a heading of its own. */
export const MountPart = ({ title, children }: Props) => (
  <Stack as="section" className={styles['part']}>
    <h3>{title}</h3>
    {children}
  </Stack>
);
