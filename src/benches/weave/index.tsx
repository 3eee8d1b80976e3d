/** The Weave bench: tilt the proof, look at the dots, weave the sheet. */
import { buttonClass, Panel, Stack } from '../../ui/index.ts';
import { Parts } from '../desk/Parts.tsx';
import { useJob } from '../studio.ts';
import { flipOf } from '../../job/facts/sheet.ts';
import { GhostsPanel } from './ghosts/GhostsPanel.tsx';
import { LoupePanel } from './LoupePanel.tsx';
import { ProofPanel } from './ProofPanel.tsx';
import { SheetPanel } from './SheetPanel.tsx';

const Empty = () => (
  <Panel title="Nothing to weave yet">
    <p>
      The sheet is woven from a sequence of frames. Add yours on the Frames bench, or open one of
      the demo scenes there.
    </p>
    <p>
      <a className={buttonClass('primary')} href="#/frames">
        Go to Frames
      </a>
    </p>
  </Panel>
);

const ProofAndSheet = () => (
  <Stack gap={5}>
    <ProofPanel />
    <SheetPanel />
  </Stack>
);

const WeaveBench = () => {
  const job = useJob();
  if (job.frames.length === 0) return <Empty />;
  const flips = (flipOf(job)?.pictures ?? 0) > 1;
  return (
    <Parts
      bench="weave"
      parts={[
        { name: 'sheet', label: 'Proof and sheet', Part: ProofAndSheet },
        { name: 'loupe', label: 'Loupe', Part: LoupePanel },
        ...(flips ? [{ name: 'ghosts', label: 'Ghosts', Part: GhostsPanel }] : []),
      ]}
    />
  );
};
export default WeaveBench;
