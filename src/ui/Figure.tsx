import type { ReactNode } from 'react';
import { Fragment, use } from 'react';
import styles from './Figure.module.css';
import { Meanings } from './Meaning.tsx';

interface FigureProps {
  readonly label: string;
  /** The number as shown, with its unit: "0.5355 mm". */
  readonly value: string;
  /** The relation with this job's numbers in it: "p_v = p (1 + g₀ / D)"; `_v` is set as an index. */
  readonly relation: string;
  /** Its number in docs/optics.md, where it has one. */
  readonly relationNumber?: number;
  /** What the figure means, in a sentence; left out: what the page says of its label. */
  readonly children?: ReactNode;
}

const withIndices = (relation: string): ReactNode =>
  relation
    .split(/_(\w+)/)
    .map((part, place) => (
      <Fragment key={place}>{place % 2 === 0 ? part : <sub>{part}</sub>}</Fragment>
    ));

/** A computed figure that opens to the relation behind it, and to what it means. */
export const Figure = ({ label, value, relation, relationNumber, children }: FigureProps) => {
  const byLabel = use(Meanings)(label);
  const meaning = children ?? byLabel;
  return (
    <details className={styles['figure']}>
      <summary>
        <span className={styles['name']}>{label}</span>
        <span className={styles['leader']} aria-hidden="true" />
        <span className={styles['value']}>{value}</span>
      </summary>
      <div className={styles['body']}>
        <p className={styles['relation']}>{withIndices(relation)}</p>
        {meaning !== undefined && <p>{meaning}</p>}
        {relationNumber !== undefined && (
          <p className={styles['source']}>Optics, relation {relationNumber}</p>
        )}
      </div>
    </details>
  );
};
