/** The Plan bench: what this lens, printer and size can do, before money is spent. */
import { DepthPanel } from './depth/DepthPanel.tsx';
import { ExactnessPanel } from './exactness/ExactnessPanel.tsx';
import { FitPanel } from './fit/FitPanel.tsx';
import { LensPanel } from './lens/LensPanel.tsx';
import { MoneyPanel } from './money/MoneyPanel.tsx';
import styles from './plan.module.css';
import { ShelvesPanel } from './shelves/index.ts';
import { VerdictPanel } from './verdict/VerdictPanel.tsx';

const Plan = () => (
  <div className={styles['bench']}>
    <VerdictPanel />
    <LensPanel />
    <FitPanel />
    <ExactnessPanel />
    <DepthPanel />
    <MoneyPanel />
    <ShelvesPanel />
  </div>
);
export default Plan;
