/** The lens: what is known of its rib, what follows, and what an eye sees through it. */
import { useMemo } from 'react';
import { standing } from '../../../core/lens/focus.ts';
import { lensOf } from '../../../job/facts/sheet.ts';
import { useJob } from '../../studio.ts';
import { Panel } from '../../../ui/index.ts';
import { LensDrawings } from './LensDrawings.tsx';
import { LensFigures } from './LensFigures.tsx';
import { LensSheetFields } from './LensSheetFields.tsx';

export const LensPanel = () => {
  const job = useJob();
  const stands = useMemo(() => standing(lensOf(job)), [job]);
  return (
    <Panel title="Lens">
      <LensSheetFields inferredMm={stands?.lens.radiusMm} radiusFrom={stands?.radiusFrom} />
      {stands !== undefined && (
        <>
          <LensDrawings lens={stands.lens} viewSlots={job.viewSlots} />
          <LensFigures job={job} stands={stands} />
        </>
      )}
    </Panel>
  );
};
