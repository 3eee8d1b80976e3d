/** For photographers: a camera slide or a turntable in place of sheared cameras, and what each distorts. */
import { rigOf } from '../../core/plan/rig.ts';
import type { Way } from '../../core/plan/turned.ts';
import { distortionOf, railWidth, turnOf } from '../../core/plan/turned.ts';
import { formatLength, sayLengthTo, trimmed } from '../../core/units/format.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import { plannedFrame, rigSettingOf, sceneUnitOf } from '../../job/facts/rig.ts';
import { useEdit, useUnits } from '../studio.ts';
import { Fields, Figure, FiguresTable, Notice, Panel, SelectField } from '../../ui/index.ts';
import { changeRig } from '../../job/edits/rig.ts';
import { sceneLength } from '../../job/facts/scene-measure.ts';

const ways = [
  { value: 'rendered', label: 'Rendered: shifted windows' },
  { value: 'rail', label: 'Camera slide, straight ahead' },
  { value: 'turned-in', label: 'Camera slide, turned in' },
  { value: 'turntable', label: 'Turntable' },
] as const;

const advice: Readonly<Record<Way, string>> = {
  rendered: 'Nothing is distorted: every window is sheared on to the same rectangle.',
  rail: 'Nothing is distorted, but each photograph must be wider than the frame; the window is cut out of it afterwards, at the crop in the table.',
  'turned-in':
    'Turning the camera towards the middle makes the frame’s sides climb (keystone), differently in each view: corners no longer meet in height, and the key plane bends.',
  turntable:
    'The thing turns and the camera stands. Distorts like turning in; besides, the light stays with the camera and so wanders over the thing, and the background does not turn with it: use a plain one and soft light all round.',
};

const Turned = ({ job, way }: { readonly job: Job; readonly way: 'turned-in' | 'turntable' }) => {
  const units = useUnits();
  const rig = rigOf(rigSettingOf(job));
  const off = distortionOf(rig, way);
  const ribs = (lengthMm: number) =>
    `${sayLengthTo(lengthMm, units, 3)}, ${trimmed(lengthMm / job.lens.pitchMm, 2)} ribs`;
  const last = rig.cameras.at(-1)?.x ?? 0;
  const turn = (turnOf(rig, last) * 180) / Math.PI;
  const step = (turnOf(rig, rig.step) * 180) / Math.PI;
  return (
    <div>
      <Figure
        label={way === 'turntable' ? 'Turn the table by' : 'Turn the camera by'}
        value={`${trimmed(step, 4)}° a view, ${trimmed(2 * turn, 3)}° in all`}
        relation="atan(x_i / distance); near the middle γ p / (N g′) radians a step"
        relationNumber={5}
      />
      <Figure
        label="Keystone"
        value={`${trimmed(100 * off.keystone, 2)} %`}
        relation="(R + X sin φ) / (R − X sin φ) − 1, at the frame’s sides X"
      >
        How much taller one side of the key plane is than the other, in the outermost view.
      </Figure>
      <Figure
        label="Vertical mismatch"
        value={ribs(off.cornerMm)}
        relation="difference of a corner’s height between the outermost views"
      >
        Between neighbours in the middle {trimmed(1000 * off.neighbourMm, 1)} µm. Eyes do not
        forgive heights that differ: keep it under a printed row where you can.
      </Figure>
      <Figure
        label="Key plane bends"
        value={ribs(off.sideMm)}
        relation="movement of the frame’s side, which should not move, over all views"
      />
    </div>
  );
};

const Rail = ({ job }: { readonly job: Job }) => {
  const rig = rigOf(rigSettingOf(job));
  const wide = railWidth(rig);
  const { widthPx } = plannedFrame(job);
  const unit = sceneUnitOf(job);
  return (
    <div>
      <Figure
        label="Slide by"
        value={`${sceneLength(rig.step, unit)} a view`}
        relation="Δ = γ D p / (N g′), scaled to the scene"
        relationNumber={5}
      />
      <Figure
        label="Photograph this much wider"
        value={`${trimmed(100 * (wide - 1), 2)} %: ${Math.ceil(wide * widthPx)} px for ${widthPx}`}
        relation="1 + 2 |x_N| / width at the key plane"
      >
        Set the camera’s lens so that this width, {sceneLength(wide * rig.keyWidth, unit)} at the
        key plane, fits in.
      </Figure>
    </div>
  );
};

export const PhotoPanel = ({ job }: { readonly job: Job }) => {
  const change = useEdit(changeRig);
  const units = useUnits();
  const way = job.rig?.way ?? 'rendered';
  const rig = rigOf(rigSettingOf(job));
  return (
    <Panel title="Rendered or photographed">
      <Fields least={13}>
        <SelectField
          label="Frames are made"
          choices={ways}
          value={way}
          onChange={(value) => void change('how frames are made', { way: value })}
        />
      </Fields>
      <Notice kind={way === 'rendered' || way === 'rail' ? 'info' : 'caution'}>
        {advice[way]}
      </Notice>
      {way === 'rail' && <Rail job={job} />}
      {(way === 'turned-in' || way === 'turntable') && <Turned job={job} way={way} />}
      <FiguresTable
        caption="What each way distorts"
        head={[
          'Way',
          'Keystone, %',
          `Corner mismatch, ${units}`,
          `Side moves, ${units}`,
          'Wider by, %',
        ]}
        rows={ways.map(({ value, label }) => {
          const off = distortionOf(rig, value);
          return [
            label,
            trimmed(100 * off.keystone, 2),
            formatLength(mm(off.cornerMm), units),
            formatLength(mm(off.sideMm), units),
            value === 'rail' ? trimmed(100 * (railWidth(rig) - 1), 2) : '0',
          ];
        })}
      />
    </Panel>
  );
};
