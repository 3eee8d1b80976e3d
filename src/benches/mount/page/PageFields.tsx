/** The paper, the print's place on it and what is printed around the picture, by number. */
import { sheetPapers } from '../../../core/sheet/papers.ts';
import { lengthMeasure } from '../../../core/units/measure.ts';
import { changePage } from '../../../job/edits/page.ts';
import { pageOf, pagePlanOf } from '../../../job/facts/page.ts';
import type { Page } from '../../../job/schema/page.ts';
import { Button, ChoiceField, MeasureField, SelectField } from '../../../ui/index.ts';
import { useChange, useJob, useView } from '../../studio.ts';
import styles from './page.module.css';

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
  const change = useChange();
  const job = useJob();
  const measure = lengthMeasure(useView((view) => view.units));
  const { paper, onItsSide } = pageOf(job);
  const plan = pagePlanOf(job);
  if (paper !== 'roll' && paper !== 'own')
    return (
      <div className={styles['wide']}>
        <ChoiceField
          label="Paper lies"
          choices={[
            { value: 'upright', label: 'Portrait' },
            { value: 'side', label: 'Landscape' },
          ]}
          value={onItsSide === true ? 'side' : 'upright'}
          onChange={(value) =>
            void change(...changePage('paper lies', { onItsSide: value === 'side' }))
          }
        />
      </div>
    );
  return (
    <>
      <MeasureField
        label={paper === 'roll' ? 'Roll width' : 'Paper width'}
        value={plan.paperWidthMm}
        measure={measure}
        onCommit={(paperWidthMm) => change(...changePage('paper width', { paperWidthMm }))}
      />
      {paper === 'own' && (
        <MeasureField
          label="Paper height"
          value={plan.paperHeightMm}
          measure={measure}
          onCommit={(paperHeightMm) => change(...changePage('paper height', { paperHeightMm }))}
        />
      )}
    </>
  );
};

const Margins = () => {
  const change = useChange();
  const { marginsMm } = pageOf(useJob());
  const measure = lengthMeasure(
    useView((view) => view.units),
    0.5,
    0.0625,
  );
  return (['Left', 'Top', 'Right', 'Bottom'] as const).map((side) => {
    const key = side.toLowerCase() as Lowercase<typeof side>;
    return (
      <MeasureField
        key={side}
        label={`${side} margin`}
        value={marginsMm[key]}
        measure={measure}
        onCommit={(value) =>
          change(...changePage(`${key} margin`, { marginsMm: { ...marginsMm, [key]: value } }))
        }
      />
    );
  });
};

const Place = () => {
  const change = useChange();
  const job = useJob();
  const measure = lengthMeasure(useView((view) => view.units));
  const { leftMm, topMm } = pagePlanOf(job);
  return (
    <>
      <MeasureField
        label="Print from the left"
        value={leftMm}
        measure={measure}
        onCommit={(value) =>
          change(...changePage('print’s place', { place: { leftMm: value, topMm } }))
        }
      />
      <MeasureField
        label="Print from the top"
        value={topMm}
        measure={measure}
        onCommit={(value) =>
          change(...changePage('print’s place', { place: { leftMm, topMm: value } }))
        }
      />
    </>
  );
};

const parts = [
  ['rails', 'Rails at all four sides'],
  ['marks', 'Crop and centre marks'],
  ['label', 'Label'],
  ['bar', 'Measuring bar'],
] as const;

const Parts = () => {
  const change = useChange();
  const page = pageOf(useJob());
  return (
    <fieldset className={styles['parts']}>
      <legend>Printed around the picture</legend>
      {parts.map(([key, label]) => (
        <label key={key} className={styles['check']}>
          <input
            type="checkbox"
            checked={page[key]}
            onChange={(event) => void change(...changePage(label, { [key]: event.target.checked }))}
          />
          {label}
        </label>
      ))}
    </fieldset>
  );
};

export const PageFields = () => {
  const change = useChange();
  const page = pageOf(useJob());
  const units = useView((view) => view.units);
  return (
    <>
      <div className={styles['fields']}>
        <SelectField<Paper>
          label="Sheet paper"
          choices={paperChoices}
          value={page.paper}
          onChange={(paper) => void change(...changePage('paper', { paper, place: undefined }))}
        />
        <PaperSize />
        <Margins />
        <Place />
        <MeasureField
          label="Bleed"
          value={page.bleedMm}
          measure={lengthMeasure(units, 0.5, 0.0625)}
          onCommit={(bleedMm) => change(...changePage('bleed', { bleedMm }))}
        />
      </div>
      <Parts />
      {page.place !== undefined && (
        <div>
          <Button onClick={() => void change(...changePage('print’s place', { place: undefined }))}>
            Put the print in the middle
          </Button>
        </div>
      )}
    </>
  );
};
