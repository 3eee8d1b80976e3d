/** What is asked of the print, and how surely its numbers are known. */
import { trimmed } from '../../../core/units/format.ts';
import { percentMeasure, unitMeasure } from '../../../core/units/measure.ts';
import { exactnessOf } from '../../../job/facts/plan.ts';
import { useChange, useJob } from '../../studio.ts';
import { Button, MeasureField } from '../../../ui/index.ts';
import { changeExactness } from '../../../job/edits/exactness.ts';
import styles from './exactness.module.css';

const budgetMeasure = unitMeasure(0.05, 4, 'zone', /\s*(of a )?zones?$/i);
const unsureMeasure = unitMeasure(0.01, 4, 'LPI', /\s*lpi$/i);
const stretchMeasure = percentMeasure(0.05);

/** A strip says how surely it was read: more than anyone can guess. */
const FromStrip = () => {
  const job = useJob();
  const change = useChange();
  const read = job.provedPitch?.plusMinusLpi;
  if (read === undefined || read === exactnessOf(job).pitchUnsureLpi) return null;
  return (
    <div className={styles['row']}>
      <p>The strip that proved the pitch was read to ±{trimmed(read, 4)} LPI.</p>
      <Button
        onClick={() =>
          void change(
            ...changeExactness('pitch known to', { pitchUnsureLpi: Math.max(0.001, read) }),
          )
        }
      >
        Reckon with ±{trimmed(read, 4)} LPI
      </Button>
    </div>
  );
};

export const ExactnessFields = () => {
  const { budgetZones, pitchUnsureLpi, stretchShare } = exactnessOf(useJob());
  const change = useChange();
  return (
    <>
      <div className={styles['fields']}>
        <MeasureField
          label="Budget"
          value={budgetZones}
          measure={budgetMeasure}
          hint="How far the picture may slide from edge to edge; a quarter is barely seen."
          onCommit={(value) => change(...changeExactness('budget', { budgetZones: value }))}
        />
        <MeasureField
          label="Pitch known to"
          value={pitchUnsureLpi}
          measure={unsureMeasure}
          hint="Plus or minus. A nominal pitch is often out by a tenth."
          onCommit={(value) =>
            change(...changeExactness('pitch known to', { pitchUnsureLpi: value }))
          }
        />
        <MeasureField
          label="Stretch"
          value={stretchShare}
          measure={stretchMeasure}
          hint="By paper and printer, either way; 0.1 % is common."
          onCommit={(value) => change(...changeExactness('stretch', { stretchShare: value }))}
        />
      </div>
      <FromStrip />
    </>
  );
};
