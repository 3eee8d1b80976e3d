/** How exact pitch, squareness and centring must be for this size, and whether they are. */
import { Panel } from '../../../ui/index.ts';
import { ExactnessFields } from './ExactnessFields.tsx';
import { ExactnessFigures } from './ExactnessFigures.tsx';
import { ExactnessPlots, Outcome } from './ExactnessPlots.tsx';

export const ExactnessPanel = () => (
  <Panel title="How exact it must be">
    <ExactnessFields />
    <Outcome />
    <ExactnessFigures />
    <ExactnessPlots />
  </Panel>
);
