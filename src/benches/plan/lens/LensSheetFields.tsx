/** What is known of the sheet beyond the job sheet: both may stay empty. */
import { trimmed } from '../../../core/units/format.ts';
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import type { Measure } from '../../../core/units/measure.ts';
import { setRadius, setSupplierAngle } from '../../../job/edits.ts';
import { tryChange } from '../../../state/change.ts';
import { useJob, useView } from '../../../state/hooks.ts';
import { BlankField } from '../../../ui/index.ts';
import styles from './lens.module.css';

const plain = plainMeasure(1, 2, '°');
const angleMeasure: Measure = {
  ...plain,
  read: (text) => plain.read(text.trim().replace(/\s*(°|deg|degrees?)$/i, '')),
};

/** '' takes the number away; else it is read, and refused with the reason. */
const commit = (
  text: string,
  measure: Measure,
  change: (value: number | undefined) => string | undefined,
): string | undefined => {
  if (text === '') return change(undefined);
  const read = measure.read(text);
  return read.ok ? change(read.value) : read.message;
};

export const LensSheetFields = ({ inferredMm }: { readonly inferredMm: number | undefined }) => {
  const { radiusMm, supplierAngleDeg } = useJob().lens;
  const length = lengthMeasure(
    useView((view) => view.units),
    0.01,
    0.001,
  );
  return (
    <div className={styles['fields']}>
      <BlankField
        label="Rib radius"
        value={radiusMm === undefined ? '' : length.format(radiusMm)}
        unit={length.unit}
        hint={
          radiusMm !== undefined || inferredMm === undefined
            ? 'From the supplier’s data. Empty: taken to be in focus.'
            : `Empty: taken as ${length.format(inferredMm)} ${length.unit}, which is in focus.`
        }
        onCommit={(text) =>
          commit(text, length, (radius) =>
            tryChange('rib radius', (job) => setRadius(job, radius), 'lens.radius'),
          )
        }
      />
      <BlankField
        label="Supplier's angle"
        value={supplierAngleDeg === undefined ? '' : trimmed(supplierAngleDeg, 2)}
        unit="°"
        hint="The full viewing angle as sold. Only compared with ours."
        onCommit={(text) =>
          commit(text, angleMeasure, (angle) =>
            tryChange(
              'supplier’s angle',
              (job) => setSupplierAngle(job, angle),
              'lens.supplierAngle',
            ),
          )
        }
      />
    </div>
  );
};
