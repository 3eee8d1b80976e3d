/** What comes out of the sheet, and what a print of it costs. */
import { nameInText } from '../../../core/names/shown.ts';
import { formatLengthRough, sayLengthTo, trimmed } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import type { GangView } from '../../../job/facts/gang-view.ts';
import { laidOf } from '../../../job/facts/gang-view.ts';
import { gangOf } from '../../../job/facts/gang.ts';
import { acrossMm } from '../../../job/facts/sheet.ts';
import { chosenOf } from '../../../materials/cut-list.ts';
import { gangCostsOf } from '../../../materials/gang-costs.ts';
import { money } from '../../../materials/money.ts';
import { Figure } from '../../../ui/index.ts';
import { useJob, useShelves, useUnits, useView } from '../../studio.ts';

interface Props {
  readonly view: GangView;
}

const Counts = ({ view }: Props) => {
  const { copies } = gangOf(useJob());
  const own = view.members[0];
  const prints = view.best.places.length;
  const each = own === undefined ? 0 : laidOf(view, own.id);
  const sheets = copies === undefined || each === 0 ? undefined : Math.ceil(copies / each);
  return (
    <>
      <Figure
        label="Prints on the sheet"
        value={String(prints)}
        relation={view.members
          .map(({ id, name }) => `${laidOf(view, id)} × ${nameInText(name)}`)
          .join(' + ')}
      >
        {sheets !== undefined &&
          sheets > 1 &&
          `${copies} copies take ${sheets} such sheets; weave it once and print it ${sheets} times.`}
      </Figure>
      <Figure
        label="Waste"
        value={`${trimmed(100 * view.best.wasteShare, 1)} %`}
        relation={`1 − area of all prints / area of the lens sheet; ${view.layouts.length} ${view.layouts.length === 1 ? 'layout' : 'layouts'} compared`}
      >
        {view.layouts.length > 1 &&
          `The others: ${view.layouts
            .slice(1)
            .map(({ wasteShare, cuts }) => `${trimmed(100 * wasteShare, 1)} %, ${cuts.length} cuts`)
            .join('; ')}.`}
      </Figure>
    </>
  );
};

const Sizes = ({ view }: Props) => {
  const job = useJob();
  const units = useUnits();
  const size = (across: number, along: number) =>
    `${formatLengthRough(mm(across), units)} × ${formatLengthRough(mm(along), units)} ${units}`;
  const own = view.members[0];
  if (own === undefined) return null;
  const { pitchMm, gapRibs } = view.grid;
  const { offcutMm } = view.best;
  return (
    <>
      <Figure
        label="Cut to"
        value={`${own.ribs} ribs, ${sayLengthTo(own.ribs * pitchMm, units, 2)}`}
        relation={`odd number of ribs nearest to ${trimmed(acrossMm(job), 2)} mm / p, p = ${trimmed(pitchMm, 5)} mm`}
        relationNumber={2}
      >
        Each print is looked at by itself, so its middle lies under the middle of a rib and its
        sides in grooves. Middles are whole lens pitches apart; within each print the ribs are woven
        at the woven pitch.
      </Figure>
      <Figure
        label="Gap across the ribs"
        value={`${gapRibs} ribs, ${sayLengthTo(gapRibs * pitchMm, units, 2)}`}
        relation={`gap / p, rounded up to whole ribs = ${trimmed(view.grid.gapMm, 2)} / ${trimmed(pitchMm, 5)}`}
      />
      <Figure
        label="Left in one piece"
        value={size(offcutMm.acrossMm, offcutMm.alongMm)}
        relation="lens beyond the last print, across × along the ribs"
      >
        Keep it for pitch strips or a smaller print.
      </Figure>
    </>
  );
};

const Price = ({ view }: Props) => {
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const mark = useView((state) => state.currencyMark);
  const prints = view.best.places.length;
  const { parts, print } = gangCostsOf(job, chosenOf(job, shelves), prints);
  const said = print.known === undefined ? 'not known' : money(print.known, mark);
  return (
    <Figure
      label="Price of a print"
      value={print.known !== undefined && print.missing.length > 0 ? `${said} and more` : said}
      relation={`(${parts.map(({ name, price }) => `${name} ${price === undefined ? '?' : money(price, mark)}`).join(' + ')}) / ${prints} prints`}
    >
      {print.missing.length > 0
        ? `Not counted: ${print.missing.join('; ')}. Prices are set on the Plan bench.`
        : 'One lens sheet, one sheet of paper, ink over the whole lens sheet: the waste is in it.'}
    </Figure>
  );
};

export const GangFigures = ({ view }: Props) => (
  <div>
    <Counts view={view} />
    <Sizes view={view} />
    <Price view={view} />
  </div>
);
