/** The paper: its size, portrait or landscape, the printer margin, and what kind it is. */
import type { PaperName } from '../../core/pitch/paper.ts';
import { papers } from '../../core/pitch/paper.ts';
import { lengthMeasure } from '../../core/units/measure.ts';
import { changeStrip } from '../../job/edits/strip.ts';
import { paperOf } from '../../job/facts/pitch.ts';
import { BlankField, ChoiceField, MeasureField, SelectField } from '../../ui/index.ts';
import { NumberFields } from '../desk/NumberFields.tsx';
import { useEdit, useJob, useUnits } from '../studio.ts';

type Choice = PaperName | 'own';
const choices = [
  ...(Object.keys(papers) as PaperName[]).map((value) => ({ value, label: papers[value].label })),
  { value: 'own', label: 'Own size' },
] as const satisfies readonly { value: Choice; label: string }[];

export const PaperFields = () => {
  const change = useEdit(changeStrip);
  const job = useJob();
  const units = useUnits();
  const { widthMm, heightMm, marginMm } = paperOf(job);
  const paper: Choice = job.pitchStrip?.paper ?? 'a4';
  return (
    <>
      <SelectField<Choice>
        label="Paper"
        choices={choices}
        value={paper}
        onChange={(value) => void change('paper', { paper: value })}
      />
      {paper === 'own' ? (
        <NumberFields
          of={{ paperWidthMm: widthMm, paperHeightMm: heightMm }}
          rows={[
            ['paperWidthMm', 'Paper width', lengthMeasure(units)],
            ['paperHeightMm', 'Paper height', lengthMeasure(units)],
          ]}
          edit={change}
        />
      ) : (
        <ChoiceField
          label="Paper lies"
          choices={[
            { value: 'upright', label: 'Portrait' },
            { value: 'side', label: 'Landscape' },
          ]}
          value={job.pitchStrip?.onItsSide === true ? 'side' : 'upright'}
          onChange={(value) => void change('paper lies', { onItsSide: value === 'side' })}
        />
      )}
      <MeasureField
        label="Printer margin"
        value={marginMm}
        measure={lengthMeasure(units, 0.5, 0.0625)}
        onCommit={(margin) => change('printer margin', { marginMm: margin })}
      />
      <BlankField
        label="Kind of paper"
        value={job.pitchStrip?.paperKind ?? ''}
        hint="In your own words; a pitch holds for one kind."
        onCommit={(text) => change('kind of paper', { paperKind: text === '' ? undefined : text })}
      />
    </>
  );
};
