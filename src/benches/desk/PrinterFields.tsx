import { densityMeasure } from '../../core/units/measure.ts';
import { setDensity } from '../../job/edits/consequences.ts';
import { MeasureField } from '../../ui/index.ts';
import { useChange, useJob } from '../studio.ts';
import { DocketPart } from './DocketPart.tsx';

export const PrinterFields = () => {
  const change = useChange();
  const { printer } = useJob();
  return (
    <DocketPart title="Printer">
      <MeasureField
        label="Dots across"
        value={printer.acrossDpi}
        measure={densityMeasure}
        onCommit={(acrossDpi) =>
          change('dots across', (job) => setDensity(job, { acrossDpi }), 'printer.across')
        }
      />
      <MeasureField
        label="Dots along"
        value={printer.alongDpi}
        measure={densityMeasure}
        onCommit={(alongDpi) =>
          change('dots along', (job) => setDensity(job, { alongDpi }), 'printer.along')
        }
      />
    </DocketPart>
  );
};
