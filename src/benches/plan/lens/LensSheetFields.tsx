/** What is known of the sheet beyond the job sheet: both may stay empty. */
import { lengthMeasure, unitMeasure } from '../../../core/units/measure.ts';
import type { Standing } from '../../../core/lens/focus.ts';
import { setRadius, setSupplierAngle } from '../../../job/edits/consequences.ts';
import { useChange, useJob, useUnits } from '../../studio.ts';
import { BlankMeasure, Columns } from '../../../ui/index.ts';

const angleMeasure = unitMeasure(1, 2, '°', /\s*(°|deg|degrees?)$/i);

interface Props {
  /** What the studio takes while the field is empty, and by what it would be in focus. */
  readonly inferredMm: number | undefined;
  readonly radiusFrom: Standing['radiusFrom'] | undefined;
}

export const LensSheetFields = ({ inferredMm, radiusFrom }: Props) => {
  const { radiusMm, supplierAngleDeg } = useJob().lens;
  const change = useChange();
  const length = lengthMeasure(useUnits(), 0.01, 0.001);
  return (
    <Columns least={18} gap="3 6">
      <BlankMeasure
        label="Rib radius"
        value={radiusMm}
        measure={length}
        hint={
          radiusMm !== undefined || inferredMm === undefined
            ? 'From the supplier’s data. Empty: taken to be in focus.'
            : `Empty: taken as ${length.format(inferredMm)} ${length.unit}, which is in focus${radiusFrom === 'whole-rib' ? ' by the whole rib' : ''}.`
        }
        onCommit={(radius) => change('rib radius', (job) => setRadius(job, radius), 'lens.radius')}
      />
      <BlankMeasure
        label="Supplier's angle"
        value={supplierAngleDeg}
        measure={angleMeasure}
        hint="The full viewing angle as sold. Only compared with ours."
        onCommit={(angle) =>
          change('supplier’s angle', (job) => setSupplierAngle(job, angle), 'lens.supplierAngle')
        }
      />
    </Columns>
  );
};
