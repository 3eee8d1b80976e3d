/** The lens sheet, what is cut off it, the overlap, how many tiles, and their paper. */
import { sheetPapers } from '../../../core/sheet/papers.ts';
import { formatLengthRough } from '../../../core/units/format.ts';
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import { mm } from '../../../core/units/units.ts';
import { changeTiles, lensSheetOf } from '../../../job/edits/tiles.ts';
import type { Split } from '../../../job/facts/tiles.ts';
import { tilePaperOf, tilesOf } from '../../../job/facts/tiles.ts';
import type { Tiles } from '../../../job/schema/tiles.ts';
import { chosenOf } from '../../../materials/cut-list.ts';
import { BlankMeasure, Button, Columns, MeasureField, SelectField } from '../../../ui/index.ts';
import { useEdit, useJob, useShelves, useUnits } from '../../studio.ts';

type Paper = Tiles['paper'];
const paperChoices: readonly { value: Paper; label: string }[] = [
  { value: 'smallest', label: 'Smallest that fits' },
  ...(Object.keys(sheetPapers) as (keyof typeof sheetPapers)[]).map((value) => ({
    value,
    label: sheetPapers[value].label,
  })),
  { value: 'roll', label: 'Roll' },
  { value: 'own', label: 'Own size' },
];

const FromShelf = () => {
  const change = useEdit(changeTiles);
  const job = useJob();
  const entry = chosenOf(
    job,
    useShelves((state) => state.shelves),
  ).lens;
  const units = useUnits();
  if (entry === undefined) return null;
  const { lensAcrossMm, lensAlongMm } = tilesOf(job);
  if (entry.widthMm === lensAcrossMm && entry.heightMm === lensAlongMm) return null;
  const size = `${formatLengthRough(mm(entry.widthMm), units)} × ${formatLengthRough(mm(entry.heightMm), units)} ${units}`;
  return (
    <div data-wide="">
      <Button onClick={() => void change('lens sheet’s size', lensSheetOf(entry))}>
        {`Take the shelf’s ${size}`}
      </Button>
    </div>
  );
};

const counts = plainMeasure(1, 0);

const Counts = ({ split }: { readonly split: Split }) => {
  const change = useEdit(changeTiles);
  const { across, along } = tilesOf(useJob());
  const least = split.ok ? split.tiling : undefined;
  const ways = [
    ['across', across, least?.leastAcross],
    ['along', along, least?.leastAlong],
  ] as const;
  return ways.map(([way, value, fewest]) => (
    <BlankMeasure
      key={way}
      label={`Tiles ${way} the ribs`}
      value={value}
      measure={counts}
      hint={fewest === undefined ? 'Empty: as few as fit.' : `Empty: as few as fit, ${fewest}.`}
      onCommit={(count) => change(`tiles ${way} the ribs`, { [way]: count })}
    />
  ));
};

const PaperSize = ({ split }: { readonly split: Split }) => {
  const change = useEdit(changeTiles);
  const job = useJob();
  const measure = lengthMeasure(useUnits());
  const { paper } = tilesOf(job);
  if (!split.ok || (paper !== 'own' && paper !== 'roll')) return null;
  const { page } = tilePaperOf(job, split.tiling);
  return (
    <>
      <MeasureField
        label={paper === 'roll' ? 'Tile roll width' : 'Tile paper width'}
        value={page.paperWidthMm ?? (paper === 'roll' ? 610 : 329)}
        measure={measure}
        onCommit={(paperWidthMm) => change('tile paper width', { paperWidthMm })}
      />
      {paper === 'own' && (
        <MeasureField
          label="Tile paper height"
          value={page.paperHeightMm ?? 483}
          measure={measure}
          onCommit={(paperHeightMm) => change('tile paper height', { paperHeightMm })}
        />
      )}
    </>
  );
};

const lengths = [
  ['lensAcrossMm', 'Lens sheet across the ribs', 'lens sheet across', undefined],
  ['lensAlongMm', 'Lens sheet along the ribs', 'lens sheet along', undefined],
  ['cutOffMm', 'Cut off each lens edge', 'cut off each lens edge', 'To a clean groove.'],
  ['overlapMm', 'Overlap', 'overlap', 'The neighbours’ picture, to cut into.'],
] as const;

export const TileFields = ({ split }: { readonly split: Split }) => {
  const change = useEdit(changeTiles);
  const tiles = tilesOf(useJob());
  const units = useUnits();
  return (
    <Columns least={9} gap={3}>
      {lengths.map(([key, label, step, hint]) => (
        <MeasureField
          key={key}
          label={label}
          value={tiles[key]}
          measure={lengthMeasure(units, key.startsWith('lens') ? 1 : 0.5, 0.0625)}
          {...(hint === undefined ? {} : { hint })}
          onCommit={(value) => change(step, { [key]: value })}
        />
      ))}
      <FromShelf />
      <Counts split={split} />
      <SelectField<Paper>
        label="Tile paper"
        choices={paperChoices}
        value={tiles.paper}
        onChange={(paper) => void change('tile paper', { paper })}
      />
      <PaperSize split={split} />
    </Columns>
  );
};
