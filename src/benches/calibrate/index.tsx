/** The Calibrate bench: the pitch by its strip, ghosts by their wedge, and prints for a lamp. */
import { Panel, Stack } from '../../ui/index.ts';
import { CautionNotes } from '../desk/CautionNotes.tsx';
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

const Calibrate = () => (
  <Stack gap={5}>
    <BareLensPanel />
    <StripPanel />
    <LookPanel />
    <ScalePanel />
    <ReadPanel />
    <HistoryPanel />
    <GhostPanel />
    <LampPanel />
    <Cautions />
  </Stack>
);
export default Calibrate;
