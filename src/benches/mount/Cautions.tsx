import { Panel } from '../../ui/index.ts';
import styles from './Cautions.module.css';

const cautions: readonly { readonly of: string; readonly say: string }[] = [
  {
    of: 'Blades and trimmers',
    say: 'Cut away from the hand that holds the sheet, along a metal rule, and follow what the tool’s maker says.',
  },
  {
    of: 'Adhesives and solvents',
    say: 'Open a window, keep flames away, and follow the data sheet. Let the ink dry before it meets the adhesive.',
  },
  {
    of: 'Hot laminators and rollers',
    say: 'They burn and they pinch: keep fingers, sleeves and hair clear. Check first that the lens sheet may be heated at all.',
  },
  {
    of: 'Lamps behind a print',
    say: 'Use a lamp rated for the frame, and leave room for air. Local electrical rules apply; mains wiring is for a qualified person.',
  },
  {
    of: 'Flashing pictures',
    say: 'A print that flips between light and dark can harm photosensitive viewers as they walk past. Choose frames of like brightness.',
  },
  {
    of: 'Strong depth',
    say: 'Deep pictures strain the eyes. Stop looking when it hurts, and make the next one shallower.',
  },
];

export const Cautions = () => (
  <Panel title="Cautions">
    <dl className={styles['list']}>
      {cautions.map(({ of, say }) => (
        <div key={of}>
          <dt>{of}</dt>
          <dd>{say}</dd>
        </div>
      ))}
    </dl>
  </Panel>
);
