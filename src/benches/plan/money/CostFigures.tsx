/** What a print and a strip cost, and what has gone so far. What is not known is named. */
import { trimmed } from '../../../core/units/format.ts';
import type { Costs, Ink, Part, Total } from '../../../materials/costs.ts';
import { stockOf } from '../../../materials/use-in-job.ts';
import { useJob, useView } from '../../studio.ts';
import { Columns, Figure, Prose } from '../../../ui/index.ts';
import { money } from '../../../materials/money.ts';
import { useCosts } from './use-costs.ts';

type Say = (amount: number) => string;

const pieceRelation = ({ price, cut, each }: Part, say: Say): string =>
  cut === undefined
    ? 'price of a sheet / pieces from it'
    : each === undefined || price === undefined
      ? `price of a sheet / ${cut.pieces} pieces from it`
      : `price of a sheet / pieces from it = ${say(price)} / ${cut.pieces}`;

interface ShareProps {
  readonly label: string;
  readonly part: Part;
  readonly say: Say;
}

const Share = ({ label, part, say }: ShareProps) => (
  <Figure
    label={label}
    value={part.each === undefined ? 'not known' : say(part.each)}
    relation={pieceRelation(part, say)}
  >
    {part.lacks === undefined
      ? 'As though every piece of the sheet were used. What is left over is not counted.'
      : `Not known: ${part.lacks}.`}
  </Figure>
);

const InkShare = ({ label, ink, say }: { label: string; ink: Ink; say: Say }) => (
  <Figure
    label={label}
    value={ink.each === undefined ? 'not known' : say(ink.each)}
    relation={`price of a square metre × area = ${ink.price === undefined ? '?' : say(ink.price)} × ${trimmed(ink.squareMetres, 4)} m²`}
  >
    {ink.lacks === undefined
      ? 'For a picture that covers the whole print.'
      : `Not known: ${ink.lacks}.`}
  </Figure>
);

const sum = ({ known, missing }: Total, say: Say): string => {
  if (known === undefined) return 'not known';
  return missing.length === 0 ? say(known) : `${say(known)} and more`;
};

interface SumProps {
  readonly label: string;
  readonly total: Total;
  readonly relation: string;
  readonly say: Say;
}

const Sum = ({ label, total, relation, say }: SumProps) => (
  <Figure label={label} value={sum(total, say)} relation={relation}>
    {total.missing.length > 0 && `Not counted: ${total.missing.join('; ')}.`}
  </Figure>
);

/** Sheets bought for the prints so far: what stands at the till. */
const SheetsBegun = ({ lens, trials }: Pick<Costs, 'lens' | 'trials'>) => {
  const pieces = lens.cut?.pieces ?? 0;
  return (
    <Figure
      label="Lens sheets begun"
      value={pieces < 1 ? 'not known' : String(Math.ceil(trials / pieces))}
      relation={`prints / pieces, rounded up = ${trials} / ${pieces < 1 ? '?' : pieces}`}
    >
      Bought whole: the last may have pieces left.
    </Figure>
  );
};

const hours: Say = (amount) => `${trimmed(amount, 2)} h`;

export const CostFigures = () => {
  const mark = useView((view) => view.currencyMark);
  const { costs } = useCosts();
  const { printHours, stripHours } = stockOf(useJob());
  const say: Say = (amount) => money(amount, mark);
  const { trials, strips } = costs;
  const terms = (parts: readonly Pick<Part, 'each'>[]) =>
    parts.map(({ each }) => (each === undefined ? '?' : say(each))).join(' + ');
  const time = (each: number | undefined) => (each === undefined ? '?' : hours(each));
  const missing = [...new Set([...costs.print.missing, ...costs.strip.missing])];
  return (
    <>
      {missing.length > 0 && <Prose tone="caution">Not counted: {missing.join('; ')}.</Prose>}
      <Columns least={17} gap="0 6">
        <div>
          <Share label="Lens for a print" part={costs.lens} say={say} />
          <Share label="Paper for a print" part={costs.paper} say={say} />
          <InkShare label="Ink for a print" ink={costs.ink} say={say} />
          <Sum
            label="One print"
            total={costs.print}
            relation={`lens + paper + ink = ${terms([costs.lens, costs.paper, costs.ink])}`}
            say={say}
          />
        </div>
        <div>
          <Sum
            label="One strip"
            total={costs.strip}
            relation={`paper + ink = ${terms([costs.stripPaper, costs.stripInk])}`}
            say={say}
          />
          <Share label="A slice of lens for strips" part={costs.lensSlice} say={say} />
          <Sum
            label="Spent so far"
            total={costs.spent}
            relation={`prints × one print + strips × one strip = ${trials} × ${sum(costs.print, say)} + ${strips} × ${sum(costs.strip, say)}`}
            say={say}
          />
          <Sum
            label="Hours so far"
            total={costs.hours}
            relation={`prints × hours + strips × hours = ${trials} × ${time(printHours)} + ${strips} × ${time(stripHours)}`}
            say={hours}
          />
          <SheetsBegun lens={costs.lens} trials={trials} />
        </div>
      </Columns>
    </>
  );
};
