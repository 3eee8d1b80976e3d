/** Lenses over printers, a row a pair; on a narrow sheet each row becomes a card. */
import { mmToInch } from '../../../core/units/units.ts';
import { trimmed } from '../../../core/units/format.ts';
import { acrossMm } from '../../../job/facts/sheet.ts';
import { useJob } from '../../studio.ts';
import { Button, Prose } from '../../../ui/index.ts';
import type { Column, Row, Sorting, ToldApart } from '../../../materials/pairs.ts';
import { columns, gradeWords, isOwnPair } from '../../../materials/pairs.ts';
import styles from './pairs.module.css';

const heads: Readonly<Record<Column, string>> = {
  lens: 'Lens, LPI',
  printer: 'Printer, dpi',
  dots: 'Dots per nominal rib',
  whole: 'Whole frames',
  leftOver: 'Left over, dots',
  lost: 'Lost, %',
  told: 'Told apart',
  detail: 'Ribs across',
  grade: 'Fit',
};

interface HeadProps {
  readonly sorting: Sorting;
  onSort(sorting: Sorting): void;
}

/** Pressed again it turns round. The roles are written out: as cards the parts are no table to a browser. */
const Head = ({ sorting, onSort }: HeadProps) => (
  <thead role="rowgroup">
    <tr role="row">
      {columns.map((column) => {
        const isSorted = column === sorting.column;
        const order = sorting.falling ? 'descending' : 'ascending';
        return (
          <th key={column} role="columnheader" scope="col" aria-sort={isSorted ? order : undefined}>
            <button
              type="button"
              onClick={() => onSort({ column, falling: isSorted && !sorting.falling })}
            >
              {heads[column]}
              <span aria-hidden="true" className={styles['order']}>
                {isSorted ? (sorting.falling ? '▼' : '▲') : ''}
              </span>
            </button>
          </th>
        );
      })}
      <th role="columnheader" scope="col" className={styles['last']}>
        <span className="unseen">Choice</span>
      </th>
    </tr>
  </thead>
);

const toldText = (told: ToldApart, id: string): string =>
  told.has(id) ? `${told.get(id) ?? '–'}` : '…';

interface PairRowProps {
  readonly row: Row;
  readonly told: string;
  readonly ribs: number;
  readonly inUse: boolean;
  onUse(): void;
}

const UseButton = ({ row, inUse, onUse }: PairRowProps) => {
  const name = `${trimmed(row.lpi, 3)} LPI over ${trimmed(row.dpi, 2)} dpi`;
  if (row.grade === 'none') return <Prose as="span">under two dots</Prose>;
  return (
    <Button off={inUse} onClick={onUse} aria-label={inUse ? undefined : `Use this pair, ${name}`}>
      {inUse ? 'In use' : 'Use'}
    </Button>
  );
};

const PairRow = (props: PairRowProps) => {
  const { row } = props;
  const cells: readonly (readonly [Column, string])[] = [
    ['printer', trimmed(row.dpi, 2)],
    ['dots', trimmed(row.dots, 2)],
    ['whole', `${row.wholeFrames}`],
    ['leftOver', trimmed(row.leftOver, 2)],
    ['lost', trimmed(100 * row.lost, 1)],
    ['told', props.told],
    ['detail', trimmed(props.ribs, 0)],
  ];
  return (
    <tr role="row" data-own={isOwnPair(row) || undefined}>
      <th role="rowheader" scope="row" data-head={heads.lens}>
        {trimmed(row.lpi, 3)}
        {isOwnPair(row) && <span className={styles['mark']}>your pair</span>}
      </th>
      {cells.map(([column, text]) => (
        <td key={column} role="cell" data-head={heads[column]}>
          {text}
        </td>
      ))}
      <td role="cell" data-head={heads.grade} className={styles['grade']}>
        <span data-grade={row.grade}>{gradeWords[row.grade]}</span>
      </td>
      <td role="cell" className={styles['last']}>
        <UseButton {...props} />
      </td>
    </tr>
  );
};

interface Props extends HeadProps {
  readonly rows: readonly Row[];
  readonly told: ToldApart;
  onUse(row: Row): void;
}

export const PairTable = ({ rows, told, sorting, onSort, onUse }: Props) => {
  const inches = mmToInch(acrossMm(useJob()));
  return (
    <div className={styles['holder']}>
      <table role="table" className={styles['pairs']} aria-label="Lenses and printers">
        <Head sorting={sorting} onSort={onSort} />
        <tbody role="rowgroup">
          {rows.map((row) => (
            <PairRow
              key={row.id}
              row={row}
              told={toldText(told, row.id)}
              ribs={row.lpi * inches}
              inUse={isOwnPair(row)}
              onUse={() => onUse(row)}
            />
          ))}
        </tbody>
      </table>
    </div>
  );
};
