/** The Workshop: what the person owns, for every job. */
import { Stack } from '../../ui/index.ts';
import { PricesPanel } from './PricesPanel.tsx';
import { ShelvesPanel } from './ShelvesPanel.tsx';

const Workshop = () => (
  <Stack gap={5}>
    <ShelvesPanel />
    <PricesPanel />
  </Stack>
);
export default Workshop;
