import type { ReactNode } from 'react';
import styles from './Panel.module.css';

interface Props {
  /** Heading of second rank; the desk holds the first. */
  readonly title: string;
  /** Its place among the steps of a bench. */
  readonly step?: number;
  /** Buttons at the heading's right. */
  readonly actions?: ReactNode;
  readonly children: ReactNode;
}

/** One part of a bench, on its own sheet. Not a landmark: its heading is the way to find it. */
export const Panel = ({ title, step, actions, children }: Props) => (
  <section className={styles['panel']}>
    <div className={styles['head']}>
      <h2>
        {step !== undefined && (
          <span className={styles['step']} aria-hidden="true">
            {step}
          </span>
        )}
        {title}
      </h2>
      {actions}
    </div>
    {children}
  </section>
);
