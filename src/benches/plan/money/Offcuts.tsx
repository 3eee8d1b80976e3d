/** What the cut leaves of the lens sheet, to be kept, and what earlier cuts left that this print fits on. */
import { useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { sayLength } from '../../../core/units/format.ts';
import { leftOver, offcutsThatFit } from '../../../materials/offcuts.ts';
import { isLensOfJob } from '../../../materials/use-in-job.ts';
import type { ShelfNotice } from '../../../state/shelves.ts';
import { keepOffcuts, layIntoJob } from '../../../studio/keep/edit-shelves.ts';
import { Button, Prose, Row } from '../../../ui/index.ts';
import { ShelfTold } from '../../desk/ShelfTold.tsx';
import { useJob, useShelves, useStudio, useUnits } from '../../studio.ts';
import { useCosts } from './use-costs.ts';

export const Offcuts = () => {
  const studio = useStudio();
  const job = useJob();
  const units = useUnits();
  const shelves = useShelves((state) => state.shelves);
  const { chosen, costs } = useCosts();
  const [notice, setNotice] = useState<ShelfNotice>();
  const [fits] = offcutsThatFit(job, shelves);
  const { lens } = chosen;
  const { cut } = costs.lens;
  const left = lens !== undefined && isLensOfJob(job, lens) && cut ? leftOver(cut) : [];
  const sizes = left.map(
    ({ widthMm, heightMm }) => `${sayLength(widthMm, units)} × ${sayLength(heightMm, units)}`,
  );
  return (
    <>
      {fits !== undefined && (
        <Row gap="2 3" align="end">
          <Prose>This print fits on a piece that you have: “{nameInText(fits.name)}”.</Prose>
          <Button onClick={() => setNotice(layIntoJob(studio, 'lenses', fits))}>
            Use the offcut
          </Button>
        </Row>
      )}
      {lens !== undefined && cut !== undefined && sizes.length > 0 && (
        <Row gap="2 3" align="end">
          <Prose>The cut leaves {sizes.join(' and ')} of the lens sheet.</Prose>
          <Button onClick={() => setNotice(keepOffcuts(studio, lens, cut))}>
            Keep it in the Workshop
          </Button>
        </Row>
      )}
      <ShelfTold notice={notice} />
    </>
  );
};
