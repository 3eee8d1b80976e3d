/** An edit that says what it did, and offers the way back for as long as it was the last thing done. */
import { useState } from 'react';
import type { Job } from '../../../job/schema/job.ts';
import { tryChange } from '../../../state/change.ts';
import { documentStore } from '../../../state/document.ts';
import { useJob } from '../../../state/hooks.ts';
import { Button, Notice } from '../../../ui/index.ts';
import styles from './fit.module.css';

interface Told {
  readonly title: string;
  /** A sentence each. */
  readonly lines: readonly string[];
  readonly refused: boolean;
  /** The job that came of it. */
  readonly job: Job;
}

export const useTold = () => {
  const [told, setTold] = useState<Told>();
  const act = (
    label: string,
    edit: (job: Job) => Job,
    say: (before: Job, after: Job) => Pick<Told, 'title' | 'lines'>,
  ): void => {
    const before = documentStore.getState().job;
    const refusal = tryChange(label, edit);
    const { job } = documentStore.getState();
    setTold(
      refusal === undefined
        ? { ...say(before, job), refused: false, job }
        : { title: 'Not taken', lines: [refusal], refused: true, job },
    );
  };
  return { told, act };
};

/** The region is there from the start, so that what comes into it is read aloud. */
export const ToldRegion = ({ told }: { readonly told: Told | undefined }) => {
  const job = useJob();
  return (
    <div role="status" className={styles['told']}>
      {told !== undefined && told.job === job && (
        <Notice kind={told.refused ? 'problem' : 'info'} title={told.title}>
          {told.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          {!told.refused && (
            <p>
              <Button onClick={() => documentStore.getState().undo()}>Put it back</Button>
            </p>
          )}
        </Notice>
      )}
    </div>
  );
};
