import type { ReactNode } from 'react';
import styles from './FiguresTable.module.css';

interface Props {
  /** What is opened: "The rays in figures". Also the table's name. */
  readonly caption: string;
  /** Headings of the columns, with their units; the first heads the rows' own names. */
  readonly head: readonly string[];
  /** One cell a heading; the first names the row. */
  readonly rows: readonly (readonly ReactNode[])[];
}

/** The numbers behind a drawing, folded away: for reading exactly, and for those who do not see it. */
export const FiguresTable = ({ caption, head, rows }: Props) => (
  <details className={styles['behind']}>
    <summary>{caption}</summary>
    <div className={styles['scroll']} role="region" aria-label={caption} tabIndex={0}>
      <table>
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            {head.map((name, place) => (
              <th key={place} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, row) => (
            <tr key={row}>
              {cells.map((cell, place) =>
                place === 0 ? (
                  <th key={place} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={place}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  </details>
);
