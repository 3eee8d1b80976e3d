/** The kept jobs: open, begin, copy, rename, delete and bring back, and the room they take. */
import { useEffect, useId, useRef, useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import type { Demo } from '../../../studio/frames/demos.ts';
import { hasLocks } from '../../../studio/keep/browser.ts';
import * as actions from '../../../studio/keep/job-list.ts';
import type { JobListPart } from '../../../studio/keep/job-list-window.ts';
import { sayFault, sayFrames, sayWhen } from '../../../studio/keep/say.ts';
import type { Studio } from '../../../studio/studio.ts';
import { Button, Columns, Name, Notice, Stack, useModal } from '../../../ui/index.ts';
import { useDocument, useJob, useStudio } from '../../studio.ts';
import styles from './job-list.module.css';
import { JobRow } from './JobRow.tsx';
import { RoomPart } from './RoomPart.tsx';
import type { KeptJobs } from './use-kept-jobs.ts';
import { useKeptJobs } from './use-kept-jobs.ts';

/** One action at a time; what it said last, or why it could not be done. */
const useActions = () => {
  const studio = useStudio();
  const [said, setSaid] = useState<{ readonly text: string; readonly fault: boolean }>();
  const [busy, setBusy] = useState(false);
  const run = (action: (studio: Studio) => Promise<unknown>, thenClose = false) => {
    if (busy) return;
    setBusy(true);
    setSaid(undefined);
    action(studio)
      .then(
        (text) => {
          if (thenClose) studio.jobList.close();
          else if (typeof text === 'string') setSaid({ text, fault: false });
        },
        (error: unknown) => setSaid({ text: sayFault(error), fault: true }),
      )
      .finally(() => setBusy(false));
  };
  return { said, run };
};

const Demos = ({ onOpen }: { readonly onOpen: (name: string) => void }) => {
  const [demos, setDemos] = useState<readonly Demo[]>([]);
  useEffect(() => {
    void import('../../../studio/frames/demos.ts').then(
      (shelf) => setDemos(shelf.demos),
      () => undefined,
    );
  }, []);
  if (demos.length === 0) return null;
  return (
    <section>
      <h3>Begin with a demo</h3>
      <Columns as="ul" least={14} gap={3}>
        {demos.map(({ name, title, description }) => (
          <Stack key={name} as="li" gap={1} align="start">
            <Button aria-label={`Begin with ${title}`} onClick={() => onOpen(name)}>
              {title}
            </Button>
            <p className={styles['facts']}>{description}</p>
          </Stack>
        ))}
      </Columns>
    </section>
  );
};

type Run = ReturnType<typeof useActions>['run'];

const Bin = ({ kept, run }: { readonly kept: KeptJobs; readonly run: Run }) =>
  kept.bin.length === 0 ? null : (
    <section>
      <h3>Deleted</h3>
      <p className={styles['facts']}>Kept for a week, unless you free their room.</p>
      <Stack as="ul" gap={2}>
        {kept.bin.map((entry) => (
          <li key={entry.id} className={styles['free']}>
            <div className={styles['words']}>
              <p>
                <b>
                  <Name>{entry.name}</Name>
                </b>
              </p>
              <p className={styles['facts']}>
                {sayFrames(entry)} · deleted {sayWhen(entry.deletedAt ?? 0)}
              </p>
            </div>
            <Button
              aria-label={`Bring back ${nameInText(entry.name)}`}
              onClick={() => run((studio) => actions.bringBack(studio, entry))}
            >
              Bring back
            </Button>
          </li>
        ))}
      </Stack>
    </section>
  );

const JobsPartView = ({ kept, run }: { readonly kept: KeptJobs; readonly run: Run }) => {
  const jobId = useDocument((state) => state.jobId);
  const job = useJob();
  return (
    <>
      {kept.jobs.length === 0 ? (
        <p className={styles['facts']}>
          No job is kept yet. The open one is, as soon as something in it is changed.
        </p>
      ) : (
        <Stack as="ul" gap={2} aria-label="Kept jobs">
          {kept.jobs.map((entry) => (
            <JobRow
              key={entry.id}
              entry={entry}
              isOpen={actions.isOpen({ jobId, job }, entry)}
              onOpen={() => run((studio) => actions.openListed(studio, entry), true)}
              onRename={(name) => run((studio) => actions.renameListed(studio, entry, name))}
              onCopy={() => run((studio) => actions.copyListed(studio, entry))}
              onDelete={() =>
                run(async (studio) => {
                  await actions.deleteListed(studio, entry);
                  return `“${nameInText(entry.name)}” is deleted. It lies below and can be brought back.`;
                })
              }
            />
          ))}
        </Stack>
      )}
      <Bin kept={kept} run={run} />
      <Demos onOpen={(name) => run((studio) => actions.beginDemo(studio, name), true)} />
    </>
  );
};

const JobsDialog = ({ part }: { readonly part: JobListPart }) => {
  const { jobList } = useStudio();
  const id = useId();
  const room = useRef<HTMLElement>(null);
  const kept = useKeptJobs();
  const { said, run } = useActions();
  const loaded = kept !== undefined;
  useEffect(() => {
    if (part === 'room' && loaded) room.current?.scrollIntoView({ block: 'start' });
  }, [part, loaded]);
  return (
    <dialog
      ref={useModal()}
      className={styles['window']}
      aria-labelledby={`${id}-title`}
      onClose={jobList.close}
    >
      <header className={styles['head']}>
        <h2 id={`${id}-title`}>Jobs</h2>
        <Button look="primary" onClick={() => run(actions.beginNew, true)}>
          New job
        </Button>
        <Button onClick={jobList.close}>Close</Button>
      </header>
      <div className={styles['body']}>
        <div role="status" className={styles['said']}>
          {said !== undefined && (
            <Notice kind={said.fault ? 'problem' : 'info'} title={said.text}>
              {null}
            </Notice>
          )}
        </div>
        {kept?.memoryOnly !== undefined && (
          <Notice kind="caution" title="This browser keeps no jobs">
            {`${kept.memoryOnly}. They last as long as this page stays open.`}
          </Notice>
        )}
        {!hasLocks() && (
          <p className={styles['facts']}>
            This browser cannot hold a job for one tab. When two tabs work on one job, the one that
            falls behind is told, and keeps its change as a job of its own.
          </p>
        )}
        {kept === undefined ? <p>Looking for jobs …</p> : <JobsPartView kept={kept} run={run} />}
        <section ref={room} className={styles['room']}>
          <h3>Room on this computer</h3>
          {kept !== undefined && <RoomPart kept={kept} onFree={(work) => run(work)} />}
        </section>
      </div>
    </dialog>
  );
};

export default JobsDialog;
