/** The Mend bench: what is seen on a failed print, what is wrong, what to change, and the log of trials. */
import { Stack } from '../../ui/index.ts';
import { Parts } from '../desk/Parts.tsx';
import { ActPanel } from './act/ActPanel.tsx';
import { CausePanel } from './cause/CausePanel.tsx';
import { CountPanel } from './count/CountPanel.tsx';
import { PrintPhotoPanel } from './photo/PrintPhotoPanel.tsx';
import { TrialsPanel } from './trials/TrialsPanel.tsx';
import { WallPanel } from './wall/WallPanel.tsx';

const ThisPrint = () => (
  <Stack gap={5}>
    <WallPanel />
    <CountPanel />
    <PrintPhotoPanel />
    <CausePanel />
    <ActPanel />
  </Stack>
);

const Mend = () => (
  <Parts
    bench="mend"
    parts={[
      { name: 'print', label: 'This print', Part: ThisPrint },
      { name: 'trials', label: 'Trials', Part: TrialsPanel },
    ]}
  />
);
export default Mend;
