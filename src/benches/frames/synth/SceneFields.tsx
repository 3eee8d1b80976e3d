/** What the grey of the map means, and for which cameras views are made. */
import { useStore } from 'zustand';
import { trimmed } from '../../../core/units/format.ts';
import type { Measure } from '../../../core/units/measure.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import { gainKeepingSharp, sceneUnitOf } from '../../../job/facts/rig.ts';
import type { SynthChoices } from '../../../job/facts/synth.ts';
import { stepsStrain } from '../../../job/facts/strain.ts';
import { lenticulesAt } from '../../../job/facts/synth.ts';
import type { Job } from '../../../job/schema/job.ts';
import { choicesOf, pictureOf } from '../../../studio/frames/made/scene.ts';
import {
  Button,
  Columns,
  Figure,
  MeasureField,
  Prose,
  Row,
  SelectField,
} from '../../../ui/index.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { frameChoices } from '../../../job/words/frames.ts';
import { useStudio } from '../../studio.ts';
import styles from './synth.module.css';

const meanings = [
  { value: 'near-white', label: 'White is near' },
  { value: 'near-black', label: 'Black is near' },
  { value: 'inverse', label: 'White is near, in 1 / z' },
  { value: 'from-camera', label: 'Depth from camera' },
  { value: 'from-key', label: 'Depth from key plane' },
] as const;

/** A length that may lie on either side of the key plane. */
const depthMeasure = (unit: string, about: number): Measure =>
  plainMeasure(10 ** (Math.floor(Math.log10(Math.max(Math.abs(about), 1e-3))) - 1), 5, unit);

/** What the choice says of the map, at length. */
const meaningWords: Readonly<Record<SynthChoices['meaning'], string>> = {
  'near-white': 'Grey runs evenly in depth, from white at the nearest to black at the farthest.',
  'near-black': 'Grey runs evenly in depth, from black at the nearest to white at the farthest.',
  inverse:
    'White is nearest and grey runs evenly in 1 / distance, as multi-view test pictures and many disparity maps have it.',
  'from-camera':
    'The numbers in the file are distances from the camera along its axis, as a depth pass in OpenEXR has them.',
  'from-key': 'The numbers in the file are depths counted from the key plane, below 0 in front.',
};

const isGrey = ({ meaning }: SynthChoices): boolean =>
  meaning === 'near-white' || meaning === 'near-black' || meaning === 'inverse';

const DepthFields = ({ job, choices }: { readonly job: Job; readonly choices: SynthChoices }) => {
  const { choose } = useStudio().made;
  const scene = sceneUnitOf(job);
  const unit = choices.unit === 'scene' ? scene.name : 'mm';
  const field = (label: string, name: 'nearest' | 'farthest' | 'keyZ', hint: string) => (
    <MeasureField
      label={label}
      value={choices[name]}
      measure={depthMeasure(unit, choices[name])}
      hint={hint}
      onCommit={(value) => {
        choose({ [name]: value });
        return undefined;
      }}
    />
  );
  return (
    <>
      <SelectField
        label="Grey means"
        value={choices.meaning}
        choices={meanings}
        onChange={(meaning) => choose({ meaning })}
      />
      <SelectField
        label="Depths are given in"
        value={choices.unit}
        choices={[
          { value: 'scene', label: `Scene units (${scene.name})` },
          { value: 'print', label: 'Millimetres at the print’s size' },
        ]}
        onChange={(next) => choose({ unit: next })}
      />
      {isGrey(choices) && field('Nearest depth', 'nearest', 'Below 0: in front of the key plane.')}
      {isGrey(choices) && field('Farthest depth', 'farthest', 'Counted from the key plane.')}
      {field('Key plane', 'keyZ', '0: the rig’s own key plane.')}
    </>
  );
};

const CameraFields = ({ choices }: { readonly choices: SynthChoices }) => {
  const { choose } = useStudio().made;
  return (
    <>
      <MeasureField
        label="Depth gain of the views"
        value={choices.gain}
        measure={plainMeasure(0.01, 4)}
        hint="1 is true depth."
        onCommit={(gain) => {
          if (!(gain >= 0.001 && gain <= 10)) return 'Depth gain must be from 0.001 to 10.';
          choose({ gain });
          return undefined;
        }}
      />
      <MeasureField
        label="Views to make"
        value={choices.views}
        measure={plainMeasure(1, 0)}
        onCommit={(views) => {
          if (!(Number.isInteger(views) && views >= 2 && views <= 200))
            return 'Views must be a whole number from 2 to 200.';
          choose({ views });
          return undefined;
        }}
      />
      <SelectField
        label="The picture is seen from"
        value={choices.seenFrom === undefined ? 'middle' : String(choices.seenFrom)}
        choices={[
          { value: 'middle', label: 'The middle of the row' },
          ...Array.from({ length: choices.views }, (_, index) => ({
            value: String(index),
            label: `View ${index + 1} of ${choices.views}`,
          })),
        ]}
        onChange={(value) => choose({ seenFrom: value === 'middle' ? undefined : Number(value) })}
      />
    </>
  );
};

const ribsPerView = (count: number) =>
  `${count > 0 ? '+' : count < 0 ? '−' : ''}${trimmed(Math.abs(count), 2)} ribs per view`;

const Motion = ({ job, choices }: { readonly job: Job; readonly choices: SynthChoices }) => {
  const { choose } = useStudio().made;
  const ends = [
    { label: 'Nearest moves', z: choices.nearest },
    { label: 'Farthest moves', z: choices.farthest },
  ].map((end) => ({ ...end, moves: lenticulesAt(job, choices, end.z) }));
  const most = Math.max(...ends.map(({ moves }) => Math.abs(moves)));
  const sharp = gainKeepingSharp(choices.gain, most);
  return (
    <>
      {ends.map(({ label, moves }) => (
        <Figure
          key={label}
          label={label}
          value={ribsPerView(moves)}
          relation="s / p = γ D / (N g′) · (z / (D + z) − z_k / (D + z_k))"
          relationNumber={6}
        >
          Up to one rib per view is sharp; beyond two it breaks up.
        </Figure>
      ))}
      {ends.some(({ moves }) => stepsStrain(job, moves, choices.views)) && (
        <CautionNotes kinds={['depth']} />
      )}
      {most > 1 && (
        <Row gap="2 4" className={styles['row']}>
          <Prose large>
            {most > 2 ? 'Parts will break up.' : 'Parts will be soft.'} All is sharp at a gain of{' '}
            {sharp}.
          </Prose>
          <Button onClick={() => choose({ gain: sharp })}>Take that gain</Button>
        </Row>
      )}
    </>
  );
};

export const SceneFields = ({ job }: { readonly job: Job }) => {
  const { made } = useStudio();
  const state = useStore(made.store);
  const choices = choicesOf(job, state);
  return (
    <Columns least={12}>
      <SelectField
        label="Picture"
        value={pictureOf(job, state)?.id ?? ''}
        choices={frameChoices(job)}
        onChange={(pictureId) => made.set({ pictureId })}
      />
      <DepthFields job={job} choices={choices} />
      <CameraFields choices={choices} />
      <Row data-wide="" gap="2 4" className={styles['row']}>
        <Prose large>{meaningWords[choices.meaning]}</Prose>
        {Object.keys(state.chosen).length > 0 && (
          <Button look="quiet" onClick={() => made.set({ chosen: {} })}>
            As the rig says
          </Button>
        )}
      </Row>
      {isGrey(choices) && (
        <div data-wide="">
          <Motion job={job} choices={choices} />
        </div>
      )}
    </Columns>
  );
};
