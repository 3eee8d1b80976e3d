/** The Shoot bench: the right renders, only once. */
import { useState } from 'react';
import { setRibs } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { useChange, useJob } from '../studio.ts';
import { Button, Notice, Panel, Stack } from '../../ui/index.ts';
import { ExportPanel } from './ExportPanel.tsx';
import { PhotoPanel } from './PhotoPanel.tsx';
import { RenderPlan } from './RenderPlan.tsx';
import { RigFields } from './RigFields.tsx';
import { RigFigures } from './RigFigures.tsx';
import { TopView } from './TopView.tsx';

const LyingRibs = () => {
  const change = useChange();
  return (
    <Panel title="The rig">
      <Notice kind="caution" title="Lying ribs have no parallax to show">
        <p>
          Both eyes look through a lying rib at the same view, so a row of cameras would be wasted.
          Make change instead: one camera that does not move and frames of an animation, or two to
          four pictures for a flip, seen by nodding the print up and down. For depth, turn the ribs
          upright.
        </p>
        <Button onClick={() => void change('rib direction', (job) => setRibs(job, 'upright'))}>
          Turn the ribs upright
        </Button>
      </Notice>
    </Panel>
  );
};

const Shoot = () => {
  const kept = useJob();
  // What a dragged grip would make of the job; it becomes one step when the grip is let go.
  const [draft, setDraft] = useState<Job>();
  const job = draft ?? kept;
  if (job.ribs === 'lying')
    return (
      <Stack gap={5}>
        <LyingRibs />
        <RenderPlan job={job} />
      </Stack>
    );
  return (
    <Stack gap={5}>
      <Panel title="The rig">
        <RigFields job={job} />
        <TopView job={job} onDraft={setDraft} />
        <RigFigures job={job} />
      </Panel>
      <ExportPanel job={job} />
      <PhotoPanel job={job} />
      <RenderPlan job={job} />
    </Stack>
  );
};
export default Shoot;
