import { NotBuilt } from '../../ui/index.ts';

const Calibrate = () => (
  <NotBuilt
    will="It will weave one pitch strip to print and lay under the lens, and turn the band that reads best into a proved pitch that follows the job to other viewing distances."
    meanwhile="Until then the pitch on the job sheet stays nominal. If you know the true pitch of your sheet, type it into the job sheet."
  />
);
export default Calibrate;
