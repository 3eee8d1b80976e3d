import { pitchStanding } from '../../job/facts/sheet.ts';
import { useJob } from '../studio.ts';
import styles from './PitchStamp.module.css';

/** Stamped on the docket: whether the pitch is what the seller says or what a strip has shown. */
export const PitchStamp = () => {
  const standing = pitchStanding(useJob());
  return (
    <p
      className={standing === 'proved' ? `${styles['stamp']} ${styles['proved']}` : styles['stamp']}
    >
      <span className="unseen">Pitch is </span>
      {standing}
    </p>
  );
};
