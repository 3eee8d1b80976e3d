import { NotBuilt } from '../../ui/index.ts';
import { LensFigures } from './LensFigures.tsx';

const Plan = () => (
  <NotBuilt
    will="It will draw the lens and its viewing cone as a cross-section, the depth budget as a ruler, and a table of lens pitches against printer grids that says which pairs sit well together."
    meanwhile="The figures that the studio can work out already stand below. Each opens to the relation behind it."
  >
    <LensFigures />
  </NotBuilt>
);
export default Plan;
