/** An edit that says what it did, and offers the way back for as long as it was the last thing done. */
import { useState } from 'react';
import type { JobEdit } from '../../../job/edits/edit.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useDocument, useJob, useStudio } from '../../studio.ts';
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
  const studio = useStudio();
  const [told, setTold] = useState<Told>();
  const act = (
    edit: JobEdit,
    say: (before: Job, after: Job) => Pick<Told, 'title' | 'lines'>,
  ): void => {
    const before = studio.document.getState().job;
    const refusal = studio.change(...edit);
    const { job } = studio.document.getState();
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
  const undo = useDocument((state) => state.undo);
  return (
    <div role="status" className={styles['told']}>
      {told !== undefined && told.job === job && (
        <Notice kind={told.refused ? 'problem' : 'info'} title={told.title}>
          {told.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          {!told.refused && (
            <p>
              <Button onClick={undo}>Put it back</Button>
            </p>
          )}
        </Notice>
      )}
    </div>
  );
};
