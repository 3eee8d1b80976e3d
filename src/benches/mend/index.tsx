/** The Mend bench: what is seen on a failed print, what is wrong, what to change, and the log of trials. */
import { ActPanel } from './act/ActPanel.tsx';
import { CausePanel } from './cause/CausePanel.tsx';
import { CountPanel } from './count/CountPanel.tsx';
import { PrintPhotoPanel } from './photo/PrintPhotoPanel.tsx';
import { TrialsPanel } from './trials/TrialsPanel.tsx';
import { WallPanel } from './wall/WallPanel.tsx';
import styles from './mend.module.css';

const Mend = () => (
  <div className={styles['bench']}>
    <WallPanel />
    <CountPanel />
    <PrintPhotoPanel />
    <CausePanel />
    <ActPanel />
    <TrialsPanel />
  </div>
);
export default Mend;
