import { lengthMeasure, plainMeasure } from '../../core/units/measure.ts';
import { setViewSlots } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { tryChange } from '../../state/change.ts';
import { useJob, useView } from '../../state/hooks.ts';
import { MeasureField } from '../../ui/index.ts';
import { DocketPart } from './DocketPart.tsx';

const slotsMeasure = plainMeasure(1, 4);

const setPrint = (label: string, change: Partial<Job['print']>) =>
  tryChange(label, (job) => ({ ...job, print: { ...job.print, ...change } }), `print.${label}`);

export const PrintFields = () => {
  const { print, viewSlots } = useJob();
  const units = useView((view) => view.units);
  return (
    <DocketPart title="Print">
      <MeasureField
        label="Print width"
        value={print.widthMm}
        measure={lengthMeasure(units)}
        onCommit={(widthMm) => setPrint('print width', { widthMm })}
      />
      <MeasureField
        label="Print height"
        value={print.heightMm}
        measure={lengthMeasure(units)}
        onCommit={(heightMm) => setPrint('print height', { heightMm })}
      />
      <MeasureField
        label="Viewing distance"
        value={print.viewingDistanceMm}
        measure={lengthMeasure(units, 10, 1)}
        onCommit={(viewingDistanceMm) => setPrint('viewing distance', { viewingDistanceMm })}
      />
      <MeasureField
        label="View slots"
        value={viewSlots}
        measure={slotsMeasure}
        onCommit={(slots) =>
          tryChange('view slots', (job) => setViewSlots(job, slots), 'viewSlots')
        }
      />
    </DocketPart>
  );
};
