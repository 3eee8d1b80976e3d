/** The lens sheet, how it is used, and how many prints of this job lie on it. */
import { sayLength } from '../../../core/units/format.ts';
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import { changeGang } from '../../../job/edits/gang.ts';
import { gangOf } from '../../../job/facts/gang.ts';
import { isLensOfJob } from '../../../materials/use-in-job.ts';
import { ChoiceField, Columns, Prose, SelectField } from '../../../ui/index.ts';
import { NumberFields } from '../../desk/NumberFields.tsx';
import { useEdit, useJob, useShelves, useUnits } from '../../studio.ts';

const countMeasure = plainMeasure(1, 0);

/** Lens sheets of the shelf that are of this job's lens. */
const FromShelf = () => {
  const change = useEdit(changeGang);
  const job = useJob();
  const entries = useShelves((state) => state.shelves).lenses.filter((entry) =>
    isLensOfJob(job, entry),
  );
  if (entries.length === 0) return null;
  const { lensAcrossMm, lensAlongMm } = gangOf(job);
  const laid = entries.find(
    ({ widthMm, heightMm }) => widthMm === lensAcrossMm && heightMm === lensAlongMm,
  );
  return (
    <div data-wide="">
      <SelectField
        label="Lens sheet from the shelf"
        choices={[
          { value: '', label: 'Own size' },
          ...entries.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        value={laid?.id ?? ''}
        onChange={(id) => {
          const entry = entries.find((one) => one.id === id);
          if (entry === undefined) return;
          void change('lens sheet', {
            lensAcrossMm: entry.widthMm,
            lensAlongMm: entry.heightMm,
          });
        }}
      />
    </div>
  );
};

export const GangFields = () => {
  const change = useEdit(changeGang);
  const gang = gangOf(useJob());
  const units = useUnits();
  const [size, fine] = [lengthMeasure(units), lengthMeasure(units, 0.5, 0.0625)];
  return (
    <Columns least={9} gap={3}>
      <FromShelf />
      <NumberFields
        of={gang}
        rows={[
          ['lensAcrossMm', 'Lens across the ribs', size],
          ['lensAlongMm', 'Lens along the ribs', size],
          ['edgeMm', 'Free edge', fine],
          ['gapMm', 'Gap', fine],
          ['copies?', 'Copies', countMeasure, 'Empty: as many as find room.'],
        ]}
        edit={change}
      />
      <div data-wide="">
        <ChoiceField
          label="In the gaps"
          choices={[
            { value: 'lines', label: 'Lines to cut on' },
            { value: 'picture', label: 'More picture' },
          ]}
          value={gang.between}
          onChange={(between) => void change('gaps', { between })}
        />
        <Prose>
          {gang.between === 'lines'
            ? 'The rib beside each print is grey: cut in the groove between it and the picture, along a metal rule.'
            : `The picture goes on past the cut by a third of the gap, ${sayLength(2, units)} at most, so a cut that strays a little shows no bare paper. Lines show at the edges alone.`}
        </Prose>
      </div>
    </Columns>
  );
};
