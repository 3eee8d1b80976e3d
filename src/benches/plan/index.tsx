/** The Plan bench: what this lens, printer and size can do, before money is spent. */
import { Stack } from '../../ui/index.ts';
import { Parts } from '../desk/Parts.tsx';
import { DepthPanel } from './depth/DepthPanel.tsx';
import { ExactnessPanel } from './exactness/ExactnessPanel.tsx';
import { FinderPanel } from './finder/FinderPanel.tsx';
import { FitPanel } from './fit/FitPanel.tsx';
import { LensPanel } from './lens/LensPanel.tsx';
import { MoneyPanel } from './money/MoneyPanel.tsx';
import { ShopPanel } from './shop/ShopPanel.tsx';
import { VerdictPanel } from './verdict/VerdictPanel.tsx';

const MoneyPart = () => (
  <>
    <MoneyPanel />
    <ShopPanel />
  </>
);

const Plan = () => (
  <Stack gap={5}>
    <VerdictPanel />
    <Parts
      bench="plan"
      parts={[
        { name: 'which', label: 'Which lens', Part: FinderPanel },
        { name: 'lens', label: 'Lens', Part: LensPanel },
        { name: 'fit', label: 'Fit', Part: FitPanel },
        { name: 'exactness', label: 'Exactness', Part: ExactnessPanel },
        { name: 'depth', label: 'Depth', Part: DepthPanel },
        { name: 'money', label: 'Money and time', Part: MoneyPart },
      ]}
    />
  </Stack>
);
export default Plan;
