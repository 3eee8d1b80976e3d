/** Views that were never rendered: made from one picture and its depths, or between two frames. */
import { useStore } from 'zustand';
import { nameInText } from '../../../core/names/shown.ts';
import { synthPlan } from '../../../job/facts/synth.ts';
import { startViews } from '../../../studio/frames/made/make.ts';
import { choicesOf, faultOf, pictureOf } from '../../../studio/frames/made/scene.ts';
import type { Stage } from '../../../studio/frames/made/state.ts';
import { Button, Notice, Panel, Prose, Row, Stack, UnderWay } from '../../../ui/index.ts';
import { useJob, useStudio } from '../../studio.ts';
import { BetweenPart } from './BetweenPart.tsx';
import { DepthDrop } from './DepthDrop.tsx';
import { LookView } from './LookView.tsx';
import { SceneFields } from './SceneFields.tsx';
import styles from './synth.module.css';

const Outcome = ({ stage }: { readonly stage: Stage }) => {
  const { tasks } = useStudio();
  switch (stage.kind) {
    case 'making':
      return (
        <UnderWay
          label="Making"
          done={stage.done}
          total={stage.total}
          of={stage.what === 'views' ? 'views' : 'frames'}
          onStop={() => tasks.stop('madeViews')}
        />
      );
    case 'done':
      return (
        <Notice kind="info" title={stage.text}>
          They are marked as made, and are for a trial: render the views before the print to keep.
        </Notice>
      );
    case 'stopped':
      return <Notice kind="info">Stopped: the sequence is as it was.</Notice>;
    case 'failed':
      return (
        <Notice kind="problem" title="They could not be made" announce>
          {stage.message}
        </Notice>
      );
    case 'idle':
      return null;
  }
};

const FromDepth = ({ busy }: { readonly busy: boolean }) => {
  const studio = useStudio();
  const job = useJob();
  const state = useStore(studio.made.store);
  const choices = choicesOf(job, state);
  const fault = faultOf(job, choices);
  const picture = pictureOf(job, state);
  if (job.ribs === 'lying')
    return (
      <Prose large>
        Lying ribs show nothing of depth to two eyes side by side, so there are no views to make for
        them. Upright ribs do: the job sheet has the choice.
      </Prose>
    );
  const toMake = synthPlan(job, choices).slides.filter(
    (slide) => slide !== 0 || choices.keyZ !== 0,
  ).length;
  return (
    <Stack as="section" className={styles['part']} aria-labelledby="from-depth">
      <h3 id="from-depth">From one picture and its depth map</h3>
      <Prose large>
        Every pixel is moved by its depth, to each camera of the rig. What the picture hides is
        filled from the farther side, along the row: that much is invented, and is told.
      </Prose>
      <DepthDrop />
      <SceneFields job={job} />
      {fault !== undefined && <Notice kind="caution">{fault}</Notice>}
      <LookView />
      <Row gap="2 4" className={styles['row']}>
        <Button
          look="primary"
          off={busy || fault !== undefined || state.depth === undefined}
          onClick={() => void startViews(studio)}
        >
          Make views
        </Button>
        <Prose large>
          {state.depth === undefined
            ? 'Choose the depth map of the picture first.'
            : `Makes ${toMake} from ${nameInText(picture?.name ?? '')}; they take the place of the sequence, and undo brings it back.`}
        </Prose>
      </Row>
    </Stack>
  );
};

export const SynthPanel = () => {
  const job = useJob();
  const { made } = useStudio();
  const stage = useStore(made.store, (state) => state.stage);
  const busy = stage.kind === 'making';
  return (
    <Panel title="Make missing views">
      <FromDepth busy={busy} />
      <Outcome stage={stage} />
      <BetweenPart job={job} busy={busy} />
    </Panel>
  );
};
