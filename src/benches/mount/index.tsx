/** The Mount bench: from the woven sheet to the print under its lens. */
import { Cautions } from './Cautions.tsx';
import { ChecklistPanel } from './checklist/ChecklistPanel.tsx';
import { GangPanel } from './gang/GangPanel.tsx';
import { PagePanel } from './page/PagePanel.tsx';
import { TilesPanel } from './tiles/TilesPanel.tsx';
import styles from './mount.module.css';

const parts = [PagePanel, GangPanel, TilesPanel, ChecklistPanel, Cautions];

const Mount = () => (
  <div className={styles['bench']}>
    {parts.map((Part, place) => (
      <Part key={place} />
    ))}
  </div>
);
export default Mount;
