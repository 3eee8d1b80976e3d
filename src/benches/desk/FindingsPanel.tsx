/** What the studio thinks will go wrong, beside whichever bench is open. */
import { useMemo } from 'react';
import type { Finding } from '../../job/finding.ts';
import { findings } from '../../job/findings.ts';
import { tryChange } from '../../state/change.ts';
import { useDocument, useJob, useWork } from '../../state/hooks.ts';
import { Button, buttonClass, NoticeMark } from '../../ui/index.ts';
import styles from './FindingsPanel.module.css';

const words = { problem: 'Problem', caution: 'Caution', note: 'Note' } as const;

const Remedy = ({ action }: { readonly action: NonNullable<Finding['action']> }) =>
  'goTo' in action ? (
    <a className={buttonClass()} href={`#/${action.goTo}`}>
      {action.label}
    </a>
  ) : (
    <Button onClick={() => void tryChange(action.undoLabel, action.edit)}>{action.label}</Button>
  );

const Item = ({ finding }: { readonly finding: Finding }) => (
  <li className={`${styles['finding']} ${styles[finding.severity]}`}>
    <p className={styles['severity']}>
      <NoticeMark kind={finding.severity === 'note' ? 'info' : finding.severity} />
      {words[finding.severity]}
    </p>
    <h3>{finding.title}</h3>
    {finding.figure !== '' && <p className={styles['figure']}>{finding.figure}</p>}
    <p>{finding.reason}</p>
    {finding.remedy !== '' && <p className={styles['remedy']}>{finding.remedy}</p>}
    {finding.action !== undefined && <Remedy action={finding.action} />}
  </li>
);

export const FindingsPanel = () => {
  const job = useJob();
  const ready = useDocument((state) => state.ready);
  const prepareFaults = useWork((work) => work.prepareFaults);
  const arrivalNotes = useWork((work) => work.arrivalNotes);
  const found = useMemo(
    () => (ready ? findings(job, { prepareFaults, arrivalNotes }) : []),
    [ready, job, prepareFaults, arrivalNotes],
  );
  return (
    <aside className={styles['panel']} aria-labelledby="findings">
      <div className={styles['head']}>
        <h2 id="findings">Findings</h2>
        <p role="status" className={styles['count']}>
          {found.length === 0 ? 'none' : found.length}
          <span className="unseen"> found</span>
        </p>
      </div>
      {found.length === 0 ? (
        <p className={styles['none']}>
          {ready
            ? 'Nothing stands in the way that the studio can see.'
            : 'The demo is being laid in …'}
        </p>
      ) : (
        <ul>
          {found.map((finding) => (
            <Item key={finding.id} finding={finding} />
          ))}
        </ul>
      )}
    </aside>
  );
};
