import type { HTMLAttributes } from 'react';
import styles from './Prose.module.css';

interface Props extends Omit<HTMLAttributes<HTMLElement>, 'className'> {
  readonly as?: 'p' | 'span' | 'figcaption';
}

/** Soft words: what explains, beside what counts. */
export const Prose = ({ as: Part = 'p', ...rest }: Props) => (
  <Part {...rest} className={styles['prose']} />
);
