/** The Shoot bench: the right renders, only once. */
import { useMemo, useState } from 'react';
import { setRibs } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { useChange, useJob } from '../studio.ts';
import { Button, Notice, Panel, Stack } from '../../ui/index.ts';
import { Parts } from '../desk/Parts.tsx';
import { PhotoPanel } from './PhotoPanel.tsx';
import { RenderPlan } from './RenderPlan.tsx';
import { CameraFields, SceneFields } from './RigFields.tsx';
import { RigAnswer, RigFigures, TooDeep } from './RigFigures.tsx';
import { TakeAlong } from './TakeAlong.tsx';
import { TopView } from './TopView.tsx';
import { StagePart } from './stage/StagePart.tsx';
import { StageStart } from './stage/StageStart.tsx';
import { ShownJob, useShownJob } from './use-shown-job.ts';

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

const RigPart = () => {
  const { job, onDraft } = useShownJob();
  return (
    <Panel title="The rig">
      <SceneFields job={job} />
      <TooDeep job={job} />
      <RigAnswer job={job} />
      <TakeAlong job={job} />
      <TopView job={job} onDraft={onDraft} />
    </Panel>
  );
};

const CamerasPart = () => {
  const { job } = useShownJob();
  return (
    <Panel title="Gain and cameras">
      <CameraFields job={job} />
      <RigFigures job={job} />
    </Panel>
  );
};

const PhotoPart = () => <PhotoPanel job={useShownJob().job} />;
const PlanPart = () => <RenderPlan job={useShownJob().job} />;

const parts = [
  { name: 'rig', label: 'The rig', Part: RigPart },
  { name: 'cameras', label: 'Gain and cameras', Part: CamerasPart },
  { name: 'photo', label: 'Photographed', Part: PhotoPart },
  { name: 'plan', label: 'Render plan', Part: PlanPart },
] as const;
const stagePart = { name: 'stage', label: 'The stage', Part: StagePart } as const;

const Shoot = () => {
  const kept = useJob();
  // What a dragged grip would make of the job; it becomes one step when the grip is let go.
  const [draft, setDraft] = useState<Job>();
  const job = draft ?? kept;
  const shown = useMemo(() => ({ job, onDraft: setDraft }), [job]);
  if (job.ribs === 'lying')
    return (
      <Stack gap={5}>
        <LyingRibs />
        <RenderPlan job={job} />
      </Stack>
    );
  return (
    <ShownJob value={shown}>
      <Stack gap={4}>
        {job.stage === undefined && <StageStart />}
        <Parts bench="shoot" parts={job.stage === undefined ? parts : [...parts, stagePart]} />
      </Stack>
    </ShownJob>
  );
};
export default Shoot;
