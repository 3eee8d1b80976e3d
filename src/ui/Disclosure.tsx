import type { ReactNode } from 'react';
import styles from './Disclosure.module.css';

interface DisclosureProps {
  readonly summary: ReactNode;
  readonly children: ReactNode;
}

/** Something more, shown when asked for. */
export const Disclosure = ({ summary, children }: DisclosureProps) => (
  <details className={styles['disclosure']}>
    <summary>{summary}</summary>
    <div className={styles['body']}>{children}</div>
  </details>
);

interface FigureProps {
  readonly label: string;
  /** The number as shown, with its unit: "0.5355 mm". */
  readonly value: string;
  /** The relation with this job's numbers in it: "g = t / n = 0.84 / 1.5685". */
  readonly relation: ReactNode;
  /** Its number in docs/optics.md, where it has one. */
  readonly relationNumber?: number;
  /** What the figure means, in a sentence. */
  readonly children?: ReactNode;
}

/** A computed figure that opens to the relation behind it. */
export const Figure = ({ label, value, relation, relationNumber, children }: FigureProps) => (
  <details className={styles['figure']}>
    <summary>
      <span className={styles['name']}>{label}</span>
      <span className={styles['leader']} aria-hidden="true" />
      <span className={styles['value']}>{value}</span>
    </summary>
    <div className={styles['body']}>
      <p className={styles['relation']}>{relation}</p>
      {children !== undefined && <p>{children}</p>}
      {relationNumber !== undefined && (
        <p className={styles['source']}>Optics, relation {relationNumber}</p>
      )}
    </div>
  </details>
);
