/** The paper, the print's place on it and what is printed around the picture, by number. */
import { sheetPapers } from '../../../core/sheet/papers.ts';
import { lengthMeasure } from '../../../core/units/measure.ts';
import { changePage } from '../../../job/edits/page.ts';
import { pageOf, pagePlanOf } from '../../../job/facts/page.ts';
import type { Page } from '../../../job/schema/page.ts';
import { Button, ChoiceField, Columns, MeasureField, SelectField } from '../../../ui/index.ts';
import { NumberFields } from '../../desk/NumberFields.tsx';
import { useEdit, useJob, useUnits } from '../../studio.ts';
import { PrintedAround } from '../PrintedAround.tsx';

type Paper = Page['paper'];
const paperChoices: readonly { value: Paper; label: string }[] = [
  ...(Object.keys(sheetPapers) as (keyof typeof sheetPapers)[]).map((value) => ({
    value,
    label: sheetPapers[value].label,
  })),
  { value: 'roll', label: 'Roll' },
  { value: 'own', label: 'Own size' },
];

const PaperSize = () => {
  const change = useEdit(changePage);
  const job = useJob();
  const measure = lengthMeasure(useUnits());
  const { paper, onItsSide } = pageOf(job);
  const plan = pagePlanOf(job);
  if (paper !== 'roll' && paper !== 'own')
    return (
      <div data-wide="">
        <ChoiceField
          label="Paper lies"
          choices={[
            { value: 'upright', label: 'Portrait' },
            { value: 'side', label: 'Landscape' },
          ]}
          value={onItsSide === true ? 'side' : 'upright'}
          onChange={(value) => void change('paper lies', { onItsSide: value === 'side' })}
        />
      </div>
    );
  return (
    <>
      <MeasureField
        label={paper === 'roll' ? 'Roll width' : 'Paper width'}
        value={plan.paperWidthMm}
        measure={measure}
        onCommit={(paperWidthMm) => change('paper width', { paperWidthMm })}
      />
      {paper === 'own' && (
        <MeasureField
          label="Paper height"
          value={plan.paperHeightMm}
          measure={measure}
          onCommit={(paperHeightMm) => change('paper height', { paperHeightMm })}
        />
      )}
    </>
  );
};

const Margins = () => {
  const change = useEdit(changePage);
  const { marginsMm } = pageOf(useJob());
  const measure = lengthMeasure(useUnits(), 0.5, 0.0625);
  return (
    <NumberFields
      of={marginsMm}
      rows={[
        ['left', 'Left margin', measure],
        ['top', 'Top margin', measure],
        ['right', 'Right margin', measure],
        ['bottom', 'Bottom margin', measure],
      ]}
      edit={(label, side) => change(label, { marginsMm: { ...marginsMm, ...side } })}
    />
  );
};

const Place = () => {
  const change = useEdit(changePage);
  const job = useJob();
  const measure = lengthMeasure(useUnits());
  const { leftMm, topMm } = pagePlanOf(job);
  return (
    <NumberFields
      of={{ leftMm, topMm }}
      rows={[
        ['leftMm', 'Print from the left', measure],
        ['topMm', 'Print from the top', measure],
      ]}
      edit={(_, side) => change('print’s place', { place: { leftMm, topMm, ...side } })}
    />
  );
};

export const PageFields = () => {
  const change = useEdit(changePage);
  const page = pageOf(useJob());
  const units = useUnits();
  return (
    <>
      <Columns least={8} gap={3}>
        <SelectField<Paper>
          label="Sheet paper"
          choices={paperChoices}
          value={page.paper}
          onChange={(paper) => void change('paper', { paper, place: undefined })}
        />
        <PaperSize />
        <Margins />
        <Place />
        <MeasureField
          label="Bleed"
          value={page.bleedMm}
          measure={lengthMeasure(units, 0.5, 0.0625)}
          onCommit={(bleedMm) => change('bleed', { bleedMm })}
        />
        {page.bleedMm > 0 && (
          <SelectField<'mirrored' | 'white'>
            label="Bleed where frames end"
            choices={[
              { value: 'mirrored', label: 'Edge mirrored' },
              { value: 'white', label: 'White' },
            ]}
            value={page.whiteBleed === true ? 'white' : 'mirrored'}
            onChange={(chosen) =>
              void change('bleed where frames end', {
                whiteBleed: chosen === 'white' ? true : undefined,
              })
            }
          />
        )}
      </Columns>
      <PrintedAround legend="Printed around the picture" />
      {page.place !== undefined && (
        <div>
          <Button onClick={() => void change('print’s place', { place: undefined })}>
            Put the print in the middle
          </Button>
        </div>
      )}
    </>
  );
};
