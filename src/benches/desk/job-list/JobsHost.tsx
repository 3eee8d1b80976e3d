/** What the kept jobs show on the desk: the button, their window, and what must be said at once. */
import { Suspense, useState } from 'react';
import { useStore } from 'zustand';
import { takenOver } from '../../../studio/keep/job-writer.ts';
import { Button, Notice, Row } from '../../../ui/index.ts';
import { useDocument, useStudio, useWork } from '../../studio.ts';
import { latePart } from '../late-part.tsx';
import styles from './job-list.module.css';

const JobsDialog = latePart(() => import('./JobsDialog.tsx'));

export const JobsButton = () => {
  const { jobList } = useStudio();
  return (
    <Button aria-haspopup="dialog" onClick={() => jobList.open()}>
      Jobs
    </Button>
  );
};

export const JobsHost = () => {
  const part = useStore(useStudio().jobList.store, (state) => state.part);
  return <Suspense fallback={null}>{part !== undefined && <JobsDialog part={part} />}</Suspense>;
};

export const LookOnlyBanner = () => {
  const { keeper, jobList } = useStudio();
  const lookOnly = useDocument((state) => state.lookOnly);
  const refused = useDocument((state) => state.refused);
  const known = useDocument((state) => state.jobId !== '');
  const [taking, setTaking] = useState(false);
  // What was refused in an earlier such stretch was not just done.
  const [before, setBefore] = useState(refused);
  if (lookOnly === undefined && before !== refused) setBefore(refused);
  // Before the kept jobs are open there is nothing to take over, and the desk says why.
  if (lookOnly === undefined || !known) return null;
  const lost = lookOnly === takenOver;
  const take = () => {
    setTaking(true);
    void keeper.takeOver().finally(() => setTaking(false));
  };
  return (
    <div className={styles['banner']}>
      <Notice kind="caution" announce title="Only to look at">
        <p>
          {lookOnly}
          {/* The same words twice are two events to those who listen. */}
          {refused > before && (
            <b>{` What you just did was not done.${'\u00a0'.repeat(refused % 2)}`}</b>
          )}
        </p>
        <Row as="p" gap={2}>
          <Button off={taking} onClick={take}>
            {lost ? 'Take back' : 'Take over here'}
          </Button>
          <Button look="quiet" onClick={() => jobList.open()}>
            Open another job
          </Button>
        </Row>
      </Notice>
    </div>
  );
};

export const NoRoomNotice = () => {
  const { keeper, jobList, work } = useStudio();
  const what = useWork(({ noRoomFor }) => noRoomFor);
  if (what.length === 0) return null;
  const named = what.slice(0, 6).join(', ');
  return (
    <div className={styles['banner']}>
      <Notice kind="problem" announce title="No room is left on the browser’s disk">
        <p>
          There was no room for {named}
          {what.length > 6 ? ` and ${what.length - 6} more` : ''}. What was kept before is whole,
          and what is open stays as long as this page does.
        </p>
        <Row as="p" gap={2}>
          <Button onClick={() => jobList.open('room')}>See what can be freed</Button>
          <Button look="quiet" onClick={() => void keeper.keepAllAgain()}>
            Try again
          </Button>
          <Button look="quiet" onClick={() => work.setState({ noRoomFor: [] })}>
            Dismiss
          </Button>
        </Row>
      </Notice>
    </div>
  );
};
