import type { ReactNode } from 'react';
import styles from './Docket.module.css';

interface Props {
  readonly title: string;
  /** At the title's right, such as a stamp. */
  readonly aside?: ReactNode;
  readonly children: ReactNode;
  /** Below the fields, in the whole width. */
  readonly more?: ReactNode;
}

/** One ruled-off part of the docket: its fields in two columns. */
export const DocketPart = ({ title, aside, children, more }: Props) => (
  <section className={styles['part']}>
    <div className={styles['partHead']}>
      <h3>{title}</h3>
      {aside}
    </div>
    <div className={styles['fields']}>{children}</div>
    {more}
  </section>
);
