import type { HTMLAttributes } from 'react';
import styles from './Prose.module.css';

interface Props extends Omit<HTMLAttributes<HTMLElement>, 'className'> {
  readonly as?: 'p' | 'span' | 'figcaption';
  /** As large as the text around it. */
  readonly large?: boolean;
  /** Bold and in colour, for words that judge. */
  readonly tone?: 'soft' | 'good' | 'caution' | 'problem';
}

/** Soft words: what explains, beside what counts. */
export const Prose = ({ as: Part = 'p', large = false, tone = 'soft', ...rest }: Props) => (
  <Part
    {...rest}
    className={`${styles['prose']} ${styles[tone]}`}
    data-large={large || undefined}
  />
);
