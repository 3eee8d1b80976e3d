/** Everything that can hurt someone with this job, in one place. */
import { mayFlash } from '../../job/facts/flash.ts';
import type { CautionKind } from '../../job/facts/mount/step.ts';
import type { Job } from '../../job/schema/job.ts';
import { cautionWords, GIVE_WAY } from '../../job/words/cautions.ts';
import { Panel } from '../../ui/index.ts';
import { useJob } from '../studio.ts';
import styles from './Cautions.module.css';

const kindsOf = (job: Job): readonly CautionKind[] => [
  'blades',
  'edges',
  'adhesives',
  'rollers',
  ...(job.lamp === undefined ? [] : (['lamps'] as const)),
  ...(mayFlash(job) ? (['flashing'] as const) : []),
  ...(job.ribs === 'upright' ? (['depth'] as const) : []),
];

export const Cautions = () => {
  const kinds = kindsOf(useJob());
  return (
    <Panel title="Cautions">
      <p>{GIVE_WAY}</p>
      <dl className={styles['list']}>
        {kinds.map((kind) => (
          <div key={kind}>
            <dt>{cautionWords[kind].of}</dt>
            <dd>{cautionWords[kind].say}</dd>
          </div>
        ))}
      </dl>
    </Panel>
  );
};
