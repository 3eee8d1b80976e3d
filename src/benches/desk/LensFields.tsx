import { lengthMeasure, pitchMeasure, plainMeasure } from '../../core/units/measure.ts';
import { setLensPitch, setRibs } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { materials } from '../../core/lens/materials.ts';
import type { JobEdit } from '../../job/edits/edit.ts';
import { ChoiceField, MeasureField, SelectField } from '../../ui/index.ts';
import { useChange, useJob, useUnits, useView } from '../studio.ts';
import { DocketPart } from './DocketPart.tsx';
import { PitchStamp } from './PitchStamp.tsx';

const indexMeasure = plainMeasure(0.001, 4);

const ribsChoices: readonly { value: Job['ribs']; label: string }[] = [
  { value: 'upright', label: 'Upright' },
  { value: 'lying', label: 'Lying' },
];

const materialChoices = [
  { value: '', label: 'Other' },
  ...materials.map(({ name, index }) => ({ value: String(index), label: name })),
];

const setLens = (label: string, of: Partial<Job['lens']>, foldKey: string): JobEdit => [
  label,
  (job) => ({ ...job, lens: { ...job.lens, ...of } }),
  foldKey,
];

const setIndex = (index: number): JobEdit => setLens('refractive index', { index }, 'lens.index');

export const LensFields = () => {
  const change = useChange();
  const { lens, ribs } = useJob();
  const units = useUnits();
  const pitchUnit = useView((view) => view.pitchUnit);
  const setView = useView((view) => view.set);
  const known = materials.find(({ index }) => index === lens.index);
  return (
    <DocketPart title="Lens" aside={<PitchStamp />}>
      <MeasureField
        label="Lens pitch"
        value={lens.pitchMm}
        measure={pitchMeasure(pitchUnit)}
        onCommit={(pitchMm, unit) => {
          const error = change('lens pitch', (job) => setLensPitch(job, pitchMm), 'lens.pitch');
          if (error === undefined && (unit === 'lpi' || unit === 'mm'))
            setView({ pitchUnit: unit });
          return error;
        }}
      />
      <MeasureField
        label="Lens thickness"
        value={lens.thicknessMm}
        measure={lengthMeasure(units, 0.01, 0.001)}
        onCommit={(thicknessMm) =>
          change(...setLens('lens thickness', { thicknessMm }, 'lens.thickness'))
        }
      />
      <MeasureField
        label="Refractive index"
        value={lens.index}
        measure={indexMeasure}
        onCommit={(index) => change(...setIndex(index))}
      />
      <SelectField
        label="Material"
        choices={materialChoices}
        value={known === undefined ? '' : String(known.index)}
        onChange={(value) => {
          if (value !== '') change(...setIndex(Number(value)));
        }}
      />
      <ChoiceField
        label="Ribs run"
        choices={ribsChoices}
        value={ribs}
        hint="Upright: vertical on the picture. Lying: horizontal."
        onChange={(value) => void change('ribs run', (job) => setRibs(job, value))}
      />
    </DocketPart>
  );
};
