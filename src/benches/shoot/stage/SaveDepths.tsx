/** Saves the exact depth of every view. */
import { useState } from 'react';
import type { Job } from '../../../job/schema/job.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { saveDepths } from '../../../studio/stage/save-depths.ts';
import { Button, Prose, Row, UnderWay } from '../../../ui/index.ts';
import { useIsRunning, useStudio } from '../../studio.ts';

export const SaveDepths = ({ job, open }: { readonly job: Job; readonly open: OpenScene }) => {
  const studio = useStudio();
  const running = useIsRunning('stageDepths');
  const [done, setDone] = useState(0);
  const [said, setSaid] = useState('');
  if (running)
    return (
      <UnderWay
        label="Depth maps"
        done={done}
        total={job.viewSlots}
        of="views"
        onStop={() => studio.tasks.stop('stageDepths')}
      />
    );
  return (
    <Row gap="2 3">
      <Button onClick={() => void saveDepths(studio, open.facts, setDone).then(setSaid)}>
        Save depth maps
      </Button>
      <Prose as="span" role="status">
        {said === '' ? 'OpenEXR, one for each view, at the size of the frames.' : said}
      </Prose>
    </Row>
  );
};
