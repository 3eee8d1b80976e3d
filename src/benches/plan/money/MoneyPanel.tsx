/** Money and time: what a print and a strip cost, and what has gone so far. */
import { useJob } from '../../studio.ts';
import { Columns, Panel, Prose } from '../../../ui/index.ts';
import { CostFigures } from './CostFigures.tsx';
import { CountFields } from './CountFields.tsx';
import { CutDrawing } from './CutDrawing.tsx';
import { Offcuts } from './Offcuts.tsx';
import { PriceFields } from './PriceFields.tsx';
import { useCosts } from './use-costs.ts';

const Cuts = () => {
  const { lens, paper } = useCosts().costs;
  const { ribs } = useJob();
  return (
    <Columns least={17} gap="0 6">
      {lens.cut !== undefined && <CutDrawing title="Lens sheet" cut={lens.cut} ribs={ribs} />}
      {paper.cut !== undefined && <CutDrawing title="Paper" cut={paper.cut} />}
    </Columns>
  );
};

export const MoneyPanel = () => (
  <Panel title="Money and time">
    <Prose>
      A print as its share of lens sheet, paper and ink, in whatever currency you think in. Prices
      are kept in the <a href="#/workshop">Workshop</a>; choosing here takes the entry into the job.
    </Prose>
    <PriceFields />
    <CountFields />
    <CostFigures />
    <Cuts />
    <Offcuts />
  </Panel>
);
