/** Money and time: what a print and a strip cost, and what has gone so far. */
import { Panel } from '../../../ui/index.ts';
import { CostFigures } from './CostFigures.tsx';
import { CountFields } from './CountFields.tsx';
import { CutDrawing } from './CutDrawing.tsx';
import styles from './money.module.css';
import { PriceFields } from './PriceFields.tsx';
import { useCosts } from './use-costs.ts';

const Cuts = () => {
  const { lens, paper } = useCosts().costs;
  return (
    <div className={styles['columns']}>
      {lens.cut !== undefined && <CutDrawing title="Lens sheet" cut={lens.cut} />}
      {paper.cut !== undefined && <CutDrawing title="Paper" cut={paper.cut} />}
    </div>
  );
};

export const MoneyPanel = () => (
  <Panel title="Money and time">
    <p className={styles['soft']}>
      From the shelves’ entries for this job. Prices typed here are kept on the shelves.
    </p>
    <PriceFields />
    <CountFields />
    <CostFigures />
    <Cuts />
  </Panel>
);
