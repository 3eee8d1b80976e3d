/** The gap between pieces, hours, and what has been made so far. */
import { lengthMeasure, plainMeasure, unitMeasure } from '../../../core/units/measure.ts';
import { gapOf } from '../../../materials/cut-list.ts';
import { changeStock, stockOf } from '../../../materials/use-in-job.ts';
import { NumberFields } from '../../desk/NumberFields.tsx';
import { useEdit, useJob, useUnits } from '../../studio.ts';
import { Button, Fields, MeasureField } from '../../../ui/index.ts';
import styles from './money.module.css';

const countMeasure = plainMeasure(1, 0);
const hoursMeasure = unitMeasure(0.25, 2, 'hours', /\s*(h|hours?)$/i);

interface CountProps {
  readonly label: string;
  readonly one: string;
  readonly field: 'trials' | 'strips';
}

const Count = ({ label, one, field }: CountProps) => {
  const change = useEdit(changeStock);
  const count = stockOf(useJob())[field] ?? 0;
  const set = (next: number) =>
    change(label.toLowerCase(), { [field]: next === 0 ? undefined : next });
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
  const edit = useEdit(changeStock);
  const job = useJob();
  const gap = lengthMeasure(useUnits(), 0.5, 0.0625);
  return (
    <Fields least={12}>
      <NumberFields
        of={{ ...stockOf(job), gapMm: gapOf(job) }}
        rows={[
          ['gapMm', 'Gap', gap, 'Between pieces, for the blade.'],
          [
            'printHours?',
            'Hours for a print',
            hoursMeasure,
            'Yours: printing, laminating, trimming.',
          ],
          ['stripHours?', 'Hours for a strip', hoursMeasure],
        ]}
        edit={edit}
      />
      <Count label="Prints made so far" one="print" field="trials" />
      <Count label="Strips made so far" one="strip" field="strips" />
    </Fields>
  );
};
