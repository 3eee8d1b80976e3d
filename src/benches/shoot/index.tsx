import { NotBuilt } from '../../ui/index.ts';

const Shoot = () => (
  <NotBuilt
    will="It will give camera positions and window shifts in your scene’s own units, the near and far limits, and the smallest render that the lens can show, with the hours that a smaller frame or fewer views would save."
    meanwhile="Until then, keep the cameras on a straight line at equal steps, all looking straight ahead and never toed in, and number the frames from the leftmost camera."
  />
);
export default Shoot;
