import type { ReactNode } from 'react';
import styles from './Table.module.css';

interface Props {
  /** Of the table, and of the part that scrolls. */
  readonly name: string;
  /** Shown over it; without, the name is only heard. */
  readonly caption?: string;
  /** Headings of the columns, with their units; the first heads the rows' own names. */
  readonly head: readonly ReactNode[];
  /** One cell a heading; the first names the row. */
  readonly rows: readonly (readonly ReactNode[])[];
  /** Figures end at the right; words begin at the left. */
  readonly look?: 'figures' | 'words';
  /** Rows that are emphasised. */
  stands?(row: number): boolean;
}

/** Rows and columns that scroll on their own where they are wider or taller than their place. */
export const Table = ({ name, caption, head, rows, look = 'words', stands }: Props) => (
  <div className={styles[look]} role="region" aria-label={name} tabIndex={0}>
    <table>
      <caption className={caption === undefined ? 'unseen' : undefined}>{caption ?? name}</caption>
      <thead>
        <tr>
          {head.map((cell, place) => (
            <th key={place} scope="col">
              {cell}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([first, ...cells], row) => (
          <tr key={row} data-stands={stands?.(row) || undefined}>
            <th scope="row">{first}</th>
            {cells.map((cell, place) => (
              <td key={place}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
