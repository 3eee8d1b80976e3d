/** What the rig is computed from, beside the job sheet's own numbers: the scene, and the cameras in it. */
import { plainMeasure } from '../../core/units/measure.ts';
import type { Job } from '../../job/schema/job.ts';
import { depthGainOf } from '../../job/facts/plan.ts';
import { setDepthGain } from '../../job/edits/consequences.ts';
import { focalOf, keyDistanceOf, keyWidthOf, sceneUnitOf, sensorOf } from '../../job/facts/rig.ts';
import { NumberFields } from '../desk/NumberFields.tsx';
import { useChange, useEdit } from '../studio.ts';
import { ChoiceField, Fields, MeasureField, SelectField } from '../../ui/index.ts';
import { changeRig } from '../../job/edits/rig.ts';
import { sceneMeasure } from '../../job/facts/scene-measure.ts';

const unitChoices = [
  { value: 'mm', label: 'Millimetres' },
  { value: 'cm', label: 'Centimetres' },
  { value: 'm', label: 'Metres' },
  { value: 'in', label: 'Inches' },
  { value: 'ft', label: 'Feet' },
  { value: 'own', label: 'Own unit' },
] as const;

const standChoices = [
  { value: 'viewer', label: 'As the viewer' },
  { value: 'camera', label: 'By my camera’s lens' },
  { value: 'own', label: 'Typed' },
] as const;

const ReachFields = ({ job }: { readonly job: Job }) => {
  const edit = useEdit(changeRig);
  const { near, far } = job.rig ?? {};
  const about = (z = keyWidthOf(job)) => sceneMeasure(sceneUnitOf(job), z);
  return (
    <NumberFields<{ near: number | undefined; far: number | undefined }>
      of={{ near, far }}
      rows={[
        ['near?', 'Nearest thing', about(near), 'In front of the key plane. Empty: not known.'],
        ['far?', 'Farthest thing', about(far), 'Behind the key plane. Empty: not known.'],
      ]}
      edit={edit}
    />
  );
};

export const SceneFields = ({ job }: { readonly job: Job }) => {
  const change = useChange();
  const unit = sceneUnitOf(job);
  const width = keyWidthOf(job);
  return (
    <Fields least={13}>
      <SelectField
        label="Scene units"
        choices={unitChoices}
        value={job.rig?.unit ?? 'mm'}
        onChange={(value) => void change(...changeRig('scene units', { unit: value }))}
      />
      {job.rig?.unit === 'own' && (
        <MeasureField
          label="One scene unit"
          value={unit.mm}
          measure={plainMeasure(1, 6, 'mm')}
          onCommit={(ownUnitMm) => change(...changeRig('size of a scene unit', { ownUnitMm }))}
        />
      )}
      <MeasureField
        label="Width at the key plane"
        value={width}
        measure={sceneMeasure(unit, width)}
        hint="What the frame spans at the key plane."
        onCommit={(keyWidth) => change(...changeRig('width at the key plane', { keyWidth }))}
      />
      <ReachFields job={job} />
    </Fields>
  );
};

export const CameraFields = ({ job }: { readonly job: Job }) => {
  const change = useEdit(changeRig);
  const changeJob = useChange();
  const unit = sceneUnitOf(job);
  const stand = job.rig?.stand ?? 'viewer';
  const distance = keyDistanceOf(job);
  return (
    <Fields least={13}>
      <MeasureField
        label="Depth gain"
        value={depthGainOf(job)}
        measure={plainMeasure(0.01, 4)}
        hint="1 is true depth; below 1 flattens it."
        onCommit={(gain) => changeJob('depth gain', (now) => setDepthGain(now, gain), 'rig.gain')}
      />
      <ChoiceField
        label="Cameras stand"
        choices={standChoices}
        value={stand}
        onChange={(value) =>
          void change('where the cameras stand', {
            stand: value,
            ...(value === 'own' ? { keyDistance: Number(distance.toPrecision(9)) } : {}),
            ...(value === 'camera' && job.rig?.focalMm === undefined
              ? { focalMm: Number(focalOf(job).toPrecision(6)) }
              : {}),
          })
        }
      />
      {stand === 'own' && (
        <MeasureField
          label="Key plane distance"
          value={distance}
          measure={sceneMeasure(unit, distance)}
          hint="From the row of cameras."
          onCommit={(keyDistance) => change('key plane distance', { keyDistance })}
        />
      )}
      <MeasureField
        label="Sensor width"
        value={sensorOf(job)}
        measure={plainMeasure(1, 3, 'mm')}
        hint="Or aperture: of the camera you have, across the picture."
        onCommit={(sensorMm) => change('sensor width', { sensorMm })}
      />
      {stand === 'camera' && (
        <MeasureField
          label="Focal length"
          value={focalOf(job)}
          measure={plainMeasure(1, 3, 'mm')}
          onCommit={(focalMm) => change('focal length', { focalMm })}
        />
      )}
    </Fields>
  );
};
