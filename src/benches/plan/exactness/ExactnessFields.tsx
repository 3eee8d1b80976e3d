/** What is asked of the print, and how surely its numbers are known. */
import { trimmed } from '../../../core/units/format.ts';
import { percentMeasure, unitMeasure } from '../../../core/units/measure.ts';
import { exactnessOf } from '../../../job/facts/plan.ts';
import type { Exactness } from '../../../job/schema/job.ts';
import type { NumberRow } from '../../desk/NumberFields.tsx';
import { NumberFields } from '../../desk/NumberFields.tsx';
import { useEdit, useJob } from '../../studio.ts';
import { Button, Fields, Row } from '../../../ui/index.ts';
import { changeExactness } from '../../../job/edits/exactness.ts';

const budgetMeasure = unitMeasure(0.05, 4, 'zone', /\s*(of a )?zones?$/i);
const unsureMeasure = unitMeasure(0.01, 4, 'LPI', /\s*lpi$/i);

const rows: readonly NumberRow<Exactness>[] = [
  [
    'budgetZones',
    'Budget',
    budgetMeasure,
    'How far the picture may slide from edge to edge; a quarter is barely seen.',
  ],
  [
    'pitchUnsureLpi',
    'Pitch known to',
    unsureMeasure,
    'Plus or minus. A nominal pitch is often out by a tenth.',
  ],
  [
    'stretchShare',
    'Stretch',
    percentMeasure(0.05),
    'By paper and printer, either way; 0.1 % is common.',
  ],
];

/** A strip says how surely it was read: more than anyone can guess. */
const FromStrip = () => {
  const job = useJob();
  const change = useEdit(changeExactness);
  const read = job.provedPitch?.plusMinusLpi;
  if (read === undefined || read === exactnessOf(job).pitchUnsureLpi) return null;
  return (
    <Row gap="2 4">
      <p>The strip that proved the pitch was read to ±{trimmed(read, 4)} LPI.</p>
      <Button
        onClick={() => void change('pitch known to', { pitchUnsureLpi: Math.max(0.001, read) })}
      >
        Reckon with ±{trimmed(read, 4)} LPI
      </Button>
    </Row>
  );
};

export const ExactnessFields = () => {
  const exactness = exactnessOf(useJob());
  const edit = useEdit(changeExactness);
  return (
    <>
      <Fields least={12}>
        <NumberFields of={exactness} rows={rows} edit={edit} />
      </Fields>
      <FromStrip />
    </>
  );
};
