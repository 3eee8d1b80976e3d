/** The stage: the job’s scene seen through the rig, and its views. */
import { nameInText } from '../../../core/names/shown.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { Notice, Panel, Prose, Row } from '../../../ui/index.ts';
import { useIsRunning } from '../../studio.ts';
import { useShownJob } from '../use-shown-job.ts';
import { RenderViews } from './RenderViews.tsx';
import { SaveDepths } from './SaveDepths.tsx';
import { DrawingFields, FramingButtons } from './StageFields.tsx';
import { AddScene } from './StageStart.tsx';
import { StageView } from './StageView.tsx';
import { useScene } from './use-scene.ts';
import { useStageEdits } from './use-stage-edits.ts';

interface Props {
  readonly job: Job;
  readonly stage: StageChoices;
  readonly open: OpenScene;
}

const Scene = ({ job, stage, open }: Props) => {
  const edit = useStageEdits(open);
  return (
    <>
      <StageView job={job} stage={stage} open={open} edit={edit} />
      <FramingButtons job={job} open={open} edit={edit} />
      <RenderViews job={job} stage={stage} open={open} />
      <DrawingFields stage={stage} open={open} />
      <SaveDepths job={job} open={open} />
      {open.facts.notes.map((note) => (
        <Prose key={note}>{note}</Prose>
      ))}
    </>
  );
};

const Staged = ({ job, stage }: Omit<Props, 'open'>) => {
  const opened = useScene(stage);
  const coming = useIsRunning('scene');
  const facts = opened !== undefined && 'open' in opened ? opened.open.facts : undefined;
  return (
    <Panel title="The stage">
      <Row gap="2 3">
        <Prose as="span" role="status">
          {coming || opened === undefined
            ? 'The scene is being read …'
            : `${nameInText(stage.sceneName)}${facts === undefined ? '' : `: ${facts.triangles.toLocaleString('en')} triangles, ${facts.kind}`}.`}
        </Prose>
        <AddScene />
      </Row>
      {opened !== undefined && 'fault' in opened && (
        <Notice kind="problem" title="The scene is not shown" announce>
          {opened.fault}
        </Notice>
      )}
      {opened !== undefined && 'open' in opened && (
        <Scene job={job} stage={stage} open={opened.open} />
      )}
    </Panel>
  );
};

export const StagePart = () => {
  const { job } = useShownJob();
  return job.stage === undefined ? null : <Staged job={job} stage={job.stage} />;
};
