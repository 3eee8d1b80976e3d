/** The paper: its size, portrait or landscape, the printer margin, and what kind it is. */
import type { PaperName } from '../../core/pitch/paper.ts';
import { papers } from '../../core/pitch/paper.ts';
import { lengthMeasure } from '../../core/units/measure.ts';
import { changeStrip } from '../../job/edits/strip.ts';
import { paperOf } from '../../job/facts/pitch.ts';
import { BlankField, ChoiceField, MeasureField, SelectField } from '../../ui/index.ts';
import { useChange, useJob, useView } from '../studio.ts';

type Choice = PaperName | 'own';
const choices = [
  ...(Object.keys(papers) as PaperName[]).map((value) => ({ value, label: papers[value].label })),
  { value: 'own', label: 'Own size' },
] as const satisfies readonly { value: Choice; label: string }[];

const OwnSize = () => {
  const change = useChange();
  const job = useJob();
  const units = useView((view) => view.units);
  const { widthMm, heightMm } = paperOf(job);
  return (
    <>
      <MeasureField
        label="Paper width"
        value={widthMm}
        measure={lengthMeasure(units)}
        onCommit={(paperWidthMm) => change(...changeStrip('paper width', { paperWidthMm }))}
      />
      <MeasureField
        label="Paper height"
        value={heightMm}
        measure={lengthMeasure(units)}
        onCommit={(paperHeightMm) => change(...changeStrip('paper height', { paperHeightMm }))}
      />
    </>
  );
};

export const PaperFields = () => {
  const change = useChange();
  const job = useJob();
  const units = useView((view) => view.units);
  const paper: Choice = job.pitchStrip?.paper ?? 'a4';
  return (
    <>
      <SelectField<Choice>
        label="Paper"
        choices={choices}
        value={paper}
        onChange={(value) => void change(...changeStrip('paper', { paper: value }))}
      />
      {paper === 'own' ? (
        <OwnSize />
      ) : (
        <ChoiceField
          label="Paper lies"
          choices={[
            { value: 'upright', label: 'Portrait' },
            { value: 'side', label: 'Landscape' },
          ]}
          value={job.pitchStrip?.onItsSide === true ? 'side' : 'upright'}
          onChange={(value) =>
            void change(...changeStrip('paper lies', { onItsSide: value === 'side' }))
          }
        />
      )}
      <MeasureField
        label="Printer margin"
        value={paperOf(job).marginMm}
        measure={lengthMeasure(units, 0.5, 0.0625)}
        onCommit={(marginMm) => change(...changeStrip('printer margin', { marginMm }))}
      />
      <BlankField
        label="Kind of paper"
        value={job.pitchStrip?.paperKind ?? ''}
        hint="In your own words; a pitch holds for one kind."
        onCommit={(text) =>
          change(...changeStrip('kind of paper', { paperKind: text === '' ? undefined : text }))
        }
      />
    </>
  );
};
