import { densityMeasure } from '../../core/units/measure.ts';
import { setDensity } from '../../job/edits/consequences.ts';
import { tryChange } from '../../state/change.ts';
import { useJob } from '../../state/hooks.ts';
import { MeasureField } from '../../ui/index.ts';
import { DocketPart } from './DocketPart.tsx';

export const PrinterFields = () => {
  const { printer } = useJob();
  return (
    <DocketPart title="Printer">
      <MeasureField
        label="Dots across"
        value={printer.acrossDpi}
        measure={densityMeasure}
        onCommit={(acrossDpi) =>
          tryChange('dots across', (job) => setDensity(job, { acrossDpi }), 'printer.across')
        }
      />
      <MeasureField
        label="Dots along"
        value={printer.alongDpi}
        measure={densityMeasure}
        onCommit={(alongDpi) =>
          tryChange('dots along', (job) => setDensity(job, { alongDpi }), 'printer.along')
        }
      />
    </DocketPart>
  );
};
