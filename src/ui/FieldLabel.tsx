import type { ReactNode } from 'react';
import styles from './FieldBox.module.css';

interface Props {
  /** Id of the control it names. */
  readonly htmlFor: string;
  readonly label: string;
  /** What asks for its meaning, from `useMeaning`. */
  readonly ask: ReactNode;
  readonly className?: string | undefined;
}

export const FieldLabel = ({ htmlFor, label, ask, className = styles['label'] }: Props) => (
  <div className={styles['head']}>
    <label htmlFor={htmlFor} className={className}>
      {label}
    </label>
    {ask}
  </div>
);
