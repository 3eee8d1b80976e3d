import { lengthMeasure, plainMeasure } from '../../core/units/measure.ts';
import { setViewSlots } from '../../job/edits/consequences.ts';
import type { JobEdit } from '../../job/edits/edit.ts';
import type { Job } from '../../job/schema/job.ts';
import { MeasureField } from '../../ui/index.ts';
import { NumberFields } from './NumberFields.tsx';
import { useChange, useEdit, useJob, useUnits } from '../studio.ts';
import { DocketPart } from './DocketPart.tsx';

const slotsMeasure = plainMeasure(1, 4);

const setPrint = (label: string, of: Partial<Job['print']>): JobEdit => [
  label,
  (job) => ({ ...job, print: { ...job.print, ...of } }),
  `print.${label}`,
];

export const PrintFields = () => {
  const change = useChange();
  const edit = useEdit(setPrint);
  const { print, viewSlots } = useJob();
  const units = useUnits();
  return (
    <DocketPart title="Print">
      <NumberFields
        of={print}
        rows={[
          ['widthMm', 'Print width', lengthMeasure(units)],
          ['heightMm', 'Print height', lengthMeasure(units)],
          ['viewingDistanceMm', 'Viewing distance', lengthMeasure(units, 10, 1)],
        ]}
        edit={edit}
      />
      <MeasureField
        label="View slots"
        value={viewSlots}
        measure={slotsMeasure}
        onCommit={(slots) => change('view slots', (job) => setViewSlots(job, slots), 'viewSlots')}
      />
    </DocketPart>
  );
};
