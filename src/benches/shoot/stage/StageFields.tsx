/** How the scene stands in the frame, and how it is drawn. */
import { plainMeasure } from '../../../core/units/measure.ts';
import { setRigGain, rigGainThatFits } from '../../../job/facts/rig.ts';
import { depthGainOf } from '../../../job/facts/plan.ts';
import { groundOf, samplesOf } from '../../../job/facts/stage.ts';
import { changeStage } from '../../../job/edits/stage.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import { framed } from '../../../studio/stage/add-scene.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { Button, Fields, MeasureField, Row, SelectField } from '../../../ui/index.ts';
import { useChange, useEdit } from '../../studio.ts';
import type { StageEdit } from './use-stage-edits.ts';

interface Props {
  readonly job: Job;
  readonly stage: StageChoices;
  readonly open: OpenScene;
}

/** So many cameras get a button each. */
const CAMERAS_SHOWN = 4;

export const FramingButtons = ({
  job,
  open: { facts },
  edit,
}: Omit<Props, 'stage'> & { readonly edit: StageEdit }) => {
  const change = useChange();
  const gain = rigGainThatFits(job);
  return (
    <Row gap="2 3">
      {gain !== undefined && gain !== depthGainOf(job) && (
        <Button
          look="primary"
          onClick={() => void change('depth gain', (now) => setRigGain(now, gain))}
        >
          Fit the depth: gain {gain}
        </Button>
      )}
      <Button onClick={() => edit('framing the scene', (now) => framed(now, facts, undefined))}>
        Frame it from the front
      </Button>
      {facts.cameras.slice(0, CAMERAS_SHOWN).map(({ name }, index) => (
        <Button
          key={index}
          onClick={() => edit('the scene’s camera', (now) => framed(now, facts, index))}
        >
          {`Its camera: ${name.slice(0, 40)}`}
        </Button>
      ))}
    </Row>
  );
};

const grounds = [
  { value: '#d9dee2', label: 'Light grey' },
  { value: '#ffffff', label: 'White' },
  { value: '#7f7f7f', label: 'Mid grey' },
  { value: '#000000', label: 'Black' },
  { value: '#9cc3e6', label: 'Sky blue' },
] as const;

const qualities = [
  { value: '8', label: 'Quick: 8 samples' },
  { value: '32', label: 'Fine: 32 samples' },
  { value: '128', label: 'Finest: 128 samples' },
] as const;

const STILL = 'still';

export const DrawingFields = ({ stage, open: { facts } }: Omit<Props, 'job'>) => {
  const change = useEdit(changeStage);
  const samples = String(samplesOf(stage));
  return (
    <Fields least={13}>
      <SelectField
        label="Background"
        choices={grounds}
        value={groundOf(stage) as (typeof grounds)[number]['value']}
        onChange={(ground) => void change('background', { ground })}
      />
      <MeasureField
        label="Light"
        value={stage.stops ?? 0}
        measure={plainMeasure(0.5, 2, 'stops')}
        hint="0 is as the scene has it; 1 doubles it."
        onCommit={(stops) => change('light', { stops })}
      />
      <SelectField
        label="Quality"
        choices={qualities}
        value={samples as (typeof qualities)[number]['value']}
        onChange={(value) => void change('quality', { samples: Number(value) })}
      />
      {facts.clips.length > 0 && (
        <SelectField
          label="Animation over the views"
          choices={[
            { value: STILL, label: 'None: it stands still' },
            ...facts.clips.map(({ name, seconds }, index) => ({
              value: String(index),
              label: `${name.slice(0, 40)}, ${Number(seconds.toFixed(2))} s`,
            })),
          ]}
          value={stage.clip === undefined ? STILL : String(stage.clip)}
          onChange={(value) =>
            void change('animation', { clip: value === STILL ? undefined : Number(value) })
          }
        />
      )}
    </Fields>
  );
};
