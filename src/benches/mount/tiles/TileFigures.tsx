/** What the split comes to, each figure with the relation behind it. */
import { sheetPapers } from '../../../core/sheet/papers.ts';
import type { Tiling } from '../../../core/sheet/tiles.ts';
import { formatLengthRough, trimmed } from '../../../core/units/format.ts';
import { mm, mmToInch } from '../../../core/units/units.ts';
import { layOnPage, printedAround } from '../../../job/facts/page.ts';
import { tileNumbers } from '../../../job/facts/tile-numbers.ts';
import { tilePaperOf, tilesOf } from '../../../job/facts/tiles.ts';
import { Figure } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';

/** Two figures: a tolerance is no more exact than that. */
export const fine = (lengthMm: number, units: 'mm' | 'in'): string =>
  `${Number((units === 'mm' ? lengthMm : mmToInch(mm(lengthMm))).toPrecision(2))} ${units}`;

const Paper = ({ tiling }: { readonly tiling: Tiling }) => {
  const job = useJob();
  const units = useUnits();
  const { page, choice } = tilePaperOf(job, tiling);
  const tile = tiling.tiles[0];
  const { rails, marks, label, bar } = printedAround(job);
  const around = [
    'overlap',
    ...(rails ? ['rails'] : []),
    ...(marks ? ['marks'] : []),
    ...(label ? ['label'] : []),
    ...(bar ? ['measuring bar'] : []),
  ];
  if (tile === undefined) return null;
  const { widthMm, heightMm } = tile;
  const plan = layOnPage(page, { widthMm, heightMm, label: [] }, units);
  const size = (length: number) => formatLengthRough(mm(length), units);
  const name =
    choice === undefined
      ? ''
      : `${sheetPapers[choice.paper].label.split(',')[0] ?? ''}${choice.onItsSide ? ' landscape' : ''}, `;
  return (
    <Figure
      label="Page of a tile"
      value={`${name}${size(plan.paperWidthMm)} × ${size(plan.paperHeightMm)} ${units}`}
      relation={`tile ${size(widthMm)} × ${size(heightMm)} ${units}, and around it ${around.join(', ')} and the printer’s margins`}
    >
      {tilesOf(job).paper === 'smallest' && choice === undefined
        ? 'No paper of the list is large enough: the page is made as large as it must be, for a roll.'
        : 'All tiles lie on the same paper, each in its middle.'}
    </Figure>
  );
};

export const TileFigures = ({ tiling }: { readonly tiling: Tiling }) => {
  const job = useJob();
  const units = useUnits();
  const { lensAcrossMm, cutOffMm } = tilesOf(job);
  const numbers = tileNumbers(job, tiling);
  const pitch = `${trimmed(numbers.pitchMm, 4)} mm`;
  const rough = (length: number) => `${formatLengthRough(mm(length), units)} ${units}`;
  return (
    <div>
      <Figure
        label="Lens sheets"
        value={String(numbers.sheets)}
        relation={`${tiling.rows} rows × ${tiling.columns} tiles; a lens holds ⌊(${trimmed(lensAcrossMm, 1)} − 2 × ${trimmed(cutOffMm, 1)}) mm / ${pitch}⌋ = ${tiling.ribsOnLens} ribs`}
      >
        Tiles of a row differ by one rib at the most.
      </Figure>
      <Figure
        label="Whole ribs of the print"
        value={`${numbers.ribs}, ${rough(numbers.assembledMm)}`}
        relation={`2 ⌊W / 2p − ½⌋ + 1 ribs of p = ${pitch}`}
      >
        Of the print {fine(numbers.fallsAwayMm, units)} fall away, so that its outer edges are
        grooves too.
      </Figure>
      <Figure
        label="Neighbours must agree within"
        value={fine(numbers.agreeMm, units)}
        relation={`τ p = ${trimmed(numbers.budgetZones, 2)} × ${pitch}`}
        relationNumber={7}
      >
        In how print and lens lie on each other. Each tile by itself: within half of it,{' '}
        {fine(numbers.eachMm, units)}.
      </Figure>
      <Figure
        label="Pitch must be right within"
        value={`±${Number(numbers.pitchLpi.toPrecision(2))} LPI`}
        relation={`τ / W of the widest tile = ${trimmed(numbers.budgetZones, 2)} / ${trimmed(mmToInch(numbers.widestMm), 2)} in`}
        relationNumber={7}
      >
        A pitch that is off slides within each tile and jumps back at its seam: by so much, the jump
        is the budget.
      </Figure>
      <Figure
        label="Aligned from its own middle, off by"
        value={`${trimmed(numbers.ownMiddleZones, 2)} of a zone`}
        relation="x g′ / (D p), x the middle of the outermost tile from the whole’s"
        relationNumber={1}
      >
        Strips stand off their ribs more and more towards the edges. So each tile is aligned with
        the eye where the middle of the whole will be;{' '}
        {printedAround(job).label ? 'its label and the table say where.' : 'the table says where.'}
      </Figure>
      <Figure
        label="A gap of a whole rib at a seam"
        value={`${trimmed(100 * numbers.gapZones, 3)} % of a zone`}
        relation="p g₀ / (D p) = g₀ / D"
        relationNumber={1}
      >
        A gap shows as a line but hardly turns the picture: close seams for the looks of it, and
        align print to lens for the picture.
      </Figure>
      <Paper tiling={tiling} />
    </div>
  );
};
