import type { ComponentProps } from 'react';
import { Table } from './Table.tsx';
import styles from './FiguresTable.module.css';

interface Props extends Pick<ComponentProps<typeof Table>, 'head' | 'rows'> {
  /** What is opened: "The rays in figures". Also the table's name. */
  readonly caption: string;
  onToggle?(open: boolean): void;
}

/** The numbers behind a drawing, folded away: for reading exactly, and for those who do not see it. */
export const FiguresTable = ({ caption, head, rows, onToggle }: Props) => (
  <details
    className={styles['behind']}
    onToggle={({ currentTarget }) => onToggle?.(currentTarget.open)}
  >
    <summary>{caption}</summary>
    <Table look="figures" name={caption} head={head} rows={rows} />
  </details>
);
