import { Cautions } from './Cautions.tsx';
import { NotBuilt } from '../../ui/index.ts';

const Mount = () => (
  <NotBuilt
    will="It will lay paper, rails and marks around the picture, and lead through printing, drying, squaring, laminating and trimming with this job’s numbers."
    meanwhile="The cautions below hold already. Each gives way to your local rules and to the material’s own data sheet."
  >
    <Cautions />
  </NotBuilt>
);
export default Mount;
