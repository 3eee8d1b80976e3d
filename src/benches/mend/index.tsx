import { NotBuilt } from '../../ui/index.ts';

const Mend = () => (
  <NotBuilt
    will="It will draw your own frames as they look when a print has failed in this way or that; pick the one that looks like yours and it names the cause and the corrected number, and keeps the trial in a log."
    meanwhile="Until then: the picture sliding from edge to edge means the pitch is off; a slide from top to bottom means the print lies askew; depth that is inside out means the frames are in the wrong order."
  />
);
export default Mend;
