/** Currency, the gap between pieces, hours, and what has been made so far. */
import { lengthMeasure, plainMeasure, unitMeasure } from '../../../core/units/measure.ts';
import { gapOf } from '../../../materials/cut-list.ts';
import { changeStock, stockOf } from '../../../materials/use-in-job.ts';
import { useChange, useJob, useView } from '../../studio.ts';
import { BlankMeasure, BlankField, Button, MeasureField } from '../../../ui/index.ts';
import styles from './money.module.css';

const countMeasure = plainMeasure(1, 0);
const hoursMeasure = unitMeasure(0.25, 2, 'hours', /\s*(h|hours?)$/i);

const MOST_MARK = 8;

const CurrencyMark = () => {
  const mark = useView((view) => view.currencyMark);
  const setView = useView((view) => view.set);
  return (
    <BlankField
      label="Currency mark"
      value={mark}
      hint="Stands behind prices. Empty: bare numbers."
      onCommit={(currencyMark) => {
        if (currencyMark.length > MOST_MARK)
          return `A currency mark has at most ${MOST_MARK} letters: a sign or a code.`;
        setView({ currencyMark });
        return undefined;
      }}
    />
  );
};

interface CountProps {
  readonly label: string;
  readonly one: string;
  readonly field: 'trials' | 'strips';
}

const Count = ({ label, one, field }: CountProps) => {
  const change = useChange();
  const count = stockOf(useJob())[field] ?? 0;
  const set = (next: number) =>
    change(...changeStock(label.toLowerCase(), { [field]: next === 0 ? undefined : next }));
  return (
    <div className={styles['count']}>
      <MeasureField label={label} value={count} measure={countMeasure} onCommit={set} />
      <div className={styles['row']}>
        <Button aria-label={`One ${one} less`} off={count < 1} onClick={() => void set(count - 1)}>
          −
        </Button>
        <Button aria-label={`One ${one} more`} onClick={() => void set(count + 1)}>
          +
        </Button>
      </div>
    </div>
  );
};

export const CountFields = () => {
  const change = useChange();
  const job = useJob();
  const units = useView((view) => view.units);
  const { printHours, stripHours } = stockOf(job);
  return (
    <div className={styles['fields']}>
      <CurrencyMark />
      <MeasureField
        label="Gap"
        value={gapOf(job)}
        measure={lengthMeasure(units, 0.5, 0.0625)}
        hint="Between pieces, for the blade."
        onCommit={(gapMm) => change(...changeStock('gap', { gapMm }))}
      />
      <BlankMeasure
        label="Hours for a print"
        value={printHours}
        measure={hoursMeasure}
        hint="Yours: printing, laminating, trimming."
        onCommit={(hours) => change(...changeStock('hours for a print', { printHours: hours }))}
      />
      <BlankMeasure
        label="Hours for a strip"
        value={stripHours}
        measure={hoursMeasure}
        onCommit={(hours) => change(...changeStock('hours for a strip', { stripHours: hours }))}
      />
      <Count label="Prints made so far" one="print" field="trials" />
      <Count label="Strips made so far" one="strip" field="strips" />
    </div>
  );
};
