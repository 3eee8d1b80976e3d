import { lengthMeasure, pitchMeasure, plainMeasure } from '../../core/units/measure.ts';
import { setLensPitch, setRibs } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { materials } from '../../core/lens/materials.ts';
import { tryChange } from '../../state/change.ts';
import { useJob, useView } from '../../state/hooks.ts';
import { ChoiceField, MeasureField, SelectField } from '../../ui/index.ts';
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

const setIndex = (index: number) =>
  tryChange('refractive index', (job) => ({ ...job, lens: { ...job.lens, index } }), 'lens.index');

export const LensFields = () => {
  const { lens, ribs } = useJob();
  const units = useView((view) => view.units);
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
          const error = tryChange('lens pitch', (job) => setLensPitch(job, pitchMm), 'lens.pitch');
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
          tryChange(
            'lens thickness',
            (job) => ({ ...job, lens: { ...job.lens, thicknessMm } }),
            'lens.thickness',
          )
        }
      />
      <MeasureField
        label="Refractive index"
        value={lens.index}
        measure={indexMeasure}
        onCommit={setIndex}
      />
      <SelectField
        label="Material"
        choices={materialChoices}
        value={known === undefined ? '' : String(known.index)}
        onChange={(value) => {
          if (value !== '') setIndex(Number(value));
        }}
      />
      <ChoiceField
        label="Ribs run"
        choices={ribsChoices}
        value={ribs}
        onChange={(value) => void tryChange('ribs run', (job) => setRibs(job, value))}
      />
    </DocketPart>
  );
};
