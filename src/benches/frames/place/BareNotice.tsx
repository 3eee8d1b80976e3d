/** Tells where a placed picture leaves paper, with the zoom that covers it. */
import { nameInText } from '../../../core/names/shown.ts';
import { bareRemedy } from '../../../job/findings/place.ts';
import { bareMm } from '../../../job/facts/place.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { sayBare } from '../../../job/words/bare.ts';
import { Button, Notice, Row } from '../../../ui/index.ts';
import { useChange, useUnits } from '../../studio.ts';

export const BareNotice = ({ job, frame }: { readonly job: Job; readonly frame: Frame }) => {
  const change = useChange();
  const units = useUnits();
  if (frame.place === undefined) return null;
  const bare = sayBare(bareMm(job, frame), units);
  if (bare === undefined) return null;
  const remedy = bareRemedy(job, frame);
  return (
    <Notice kind="caution" title={`${nameInText(frame.name)} leaves paper bare: ${bare}`}>
      {remedy === undefined ? (
        'Fill lays it in the middle of the print, large enough.'
      ) : (
        <Row>
          <Button onClick={() => void change(remedy.undoLabel, remedy.edit)}>{remedy.label}</Button>
        </Row>
      )}
    </Notice>
  );
};
