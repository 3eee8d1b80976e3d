import { cautionWords, GIVE_WAY } from '../../job/words/cautions.ts';
import { Panel } from '../../ui/index.ts';
import styles from './Cautions.module.css';

export const Cautions = () => (
  <Panel title="Cautions">
    <p>{GIVE_WAY}</p>
    <dl className={styles['list']}>
      {Object.values(cautionWords).map(({ of, say }) => (
        <div key={of}>
          <dt>{of}</dt>
          <dd>{say}</dd>
        </div>
      ))}
    </dl>
  </Panel>
);
