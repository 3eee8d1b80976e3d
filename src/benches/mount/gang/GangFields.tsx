/** The lens sheet, how it is used, and how many prints of this job lie on it. */
import { sayLength } from '../../../core/units/format.ts';
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import { changeGang } from '../../../job/edits/gang.ts';
import { gangOf } from '../../../job/facts/gang.ts';
import { isLensOfJob } from '../../../materials/use-in-job.ts';
import { BlankMeasure, ChoiceField, MeasureField, Prose, SelectField } from '../../../ui/index.ts';
import { useChange, useJob, useShelves, useView } from '../../studio.ts';
import styles from './gang.module.css';

const countMeasure = plainMeasure(1, 0);

/** Lens sheets of the shelf that are of this job's lens. */
const FromShelf = () => {
  const change = useChange();
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
    <div className={styles['wide']}>
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
          void change(
            ...changeGang('lens sheet', {
              lensAcrossMm: entry.widthMm,
              lensAlongMm: entry.heightMm,
            }),
          );
        }}
      />
    </div>
  );
};

const fields = [
  ['lensAcrossMm', 'Lens across the ribs'],
  ['lensAlongMm', 'Lens along the ribs'],
  ['edgeMm', 'Free edge'],
  ['gapMm', 'Gap'],
] as const;

export const GangFields = () => {
  const change = useChange();
  const gang = gangOf(useJob());
  const units = useView((view) => view.units);
  return (
    <div className={styles['fields']}>
      <FromShelf />
      {fields.map(([key, label]) => (
        <MeasureField
          key={key}
          label={label}
          value={gang[key]}
          measure={
            key.startsWith('lens') ? lengthMeasure(units) : lengthMeasure(units, 0.5, 0.0625)
          }
          onCommit={(value) => change(...changeGang(label.toLowerCase(), { [key]: value }))}
        />
      ))}
      <BlankMeasure
        label="Copies"
        value={gang.copies}
        measure={countMeasure}
        hint="Empty: as many as find room."
        onCommit={(copies) => change(...changeGang('copies', { copies }))}
      />
      <div className={styles['wide']}>
        <ChoiceField
          label="In the gaps"
          choices={[
            { value: 'lines', label: 'Lines to cut on' },
            { value: 'picture', label: 'More picture' },
          ]}
          value={gang.between}
          onChange={(between) => void change(...changeGang('gaps', { between }))}
        />
        <Prose>
          {gang.between === 'lines'
            ? 'The rib beside each print is grey: cut in the groove between it and the picture, along a metal rule.'
            : `The picture goes on past the cut by a third of the gap, ${sayLength(2, units)} at most, so a cut that strays a little shows no bare paper. Lines show at the edges alone.`}
        </Prose>
      </div>
    </div>
  );
};
