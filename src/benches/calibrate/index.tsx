/** The Calibrate bench: the pitch by its strip, ghosts by their wedge, and prints for a lamp. */
import { Panel } from '../../ui/index.ts';
import { CautionNotes } from '../desk/CautionNotes.tsx';
import { Parts } from '../desk/Parts.tsx';
import { useJob } from '../studio.ts';
import { BareLensPanel } from './BareLensPanel.tsx';
import { HistoryPanel } from './HistoryPanel.tsx';
import { LookPanel } from './LookPanel.tsx';
import { ReadPanel } from './ReadPanel.tsx';
import { ScalePanel } from './ScalePanel.tsx';
import { StripPanel } from './StripPanel.tsx';
import { GhostPanel } from './ghost/GhostPanel.tsx';
import { LampPanel } from './lamp/LampPanel.tsx';

/** Only once there is a strip on paper to cut. */
const Cautions = () =>
  useJob().pitchStrip?.woven === undefined ? null : (
    <Panel title="If you cut the strip out">
      <p>The strip reads as well uncut.</p>
      <CautionNotes kinds={['blades']} />
    </Panel>
  );

/** In the order of the work: print it, measure its bars, lay the lens on it, read it. */
const Strip = () => (
  <>
    <StripPanel />
    <ScalePanel />
    <LookPanel />
    <ReadPanel />
    <HistoryPanel />
    <Cautions />
  </>
);

const MoreTests = () => (
  <>
    <BareLensPanel />
    <GhostPanel />
    <LampPanel />
  </>
);

const Calibrate = () => (
  <Parts
    bench="calibrate"
    parts={[
      { name: 'strip', label: 'Pitch strip', Part: Strip },
      { name: 'more', label: 'More tests', Part: MoreTests },
    ]}
  />
);
export default Calibrate;
