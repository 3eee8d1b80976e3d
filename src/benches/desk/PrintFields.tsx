import { lengthMeasure, plainMeasure } from '../../core/units/measure.ts';
import { setViewSlots } from '../../job/edits/consequences.ts';
import type { JobEdit } from '../../job/edits/edit.ts';
import type { Job } from '../../job/schema/job.ts';
import { MeasureField } from '../../ui/index.ts';
import { useChange, useJob, useView } from '../studio.ts';
import { DocketPart } from './DocketPart.tsx';

const slotsMeasure = plainMeasure(1, 4);

const setPrint = (label: string, of: Partial<Job['print']>): JobEdit => [
  label,
  (job) => ({ ...job, print: { ...job.print, ...of } }),
  `print.${label}`,
];

export const PrintFields = () => {
  const change = useChange();
  const { print, viewSlots } = useJob();
  const units = useView((view) => view.units);
  return (
    <DocketPart title="Print">
      <MeasureField
        label="Print width"
        value={print.widthMm}
        measure={lengthMeasure(units)}
        onCommit={(widthMm) => change(...setPrint('print width', { widthMm }))}
      />
      <MeasureField
        label="Print height"
        value={print.heightMm}
        measure={lengthMeasure(units)}
        onCommit={(heightMm) => change(...setPrint('print height', { heightMm }))}
      />
      <MeasureField
        label="Viewing distance"
        value={print.viewingDistanceMm}
        measure={lengthMeasure(units, 10, 1)}
        onCommit={(viewingDistanceMm) =>
          change(...setPrint('viewing distance', { viewingDistanceMm }))
        }
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
