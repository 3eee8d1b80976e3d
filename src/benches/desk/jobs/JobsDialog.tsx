/** The kept jobs: open, begin, copy, rename, delete and bring back, and the room they take. */
import { useEffect, useId, useLayoutEffect, useRef, useState } from 'react';
import { hasLocks } from '../../../files/job-hold.ts';
import { useDocument } from '../../../state/hooks.ts';
import { Button, Notice } from '../../../ui/index.ts';
import * as deeds from '../../../studio/keep/job-list.ts';
import type { DemoShelf } from '../../../studio/frames/demo-shelf.ts';
import { demoShelf } from '../../../studio/frames/demo-shelf.ts';
import { JobRow } from './JobRow.tsx';
import styles from './jobs.module.css';
import { RoomPart } from './RoomPart.tsx';
import { sayFault, sayFrames, sayWhen } from '../../../studio/keep/say.ts';
import type { Kept } from './use-kept.ts';
import { useKept } from './use-kept.ts';
import type { JobsPart } from '../../../studio/keep/job-list-window.ts';
import { closeJobs } from '../../../studio/keep/job-list-window.ts';

/** One deed at a time; what it said last, or why it could not be done. */
const useDeeds = () => {
  const [said, setSaid] = useState<{ readonly text: string; readonly fault: boolean }>();
  const [busy, setBusy] = useState(false);
  const run = (deed: () => Promise<unknown>, thenClose = false) => {
    if (busy) return;
    setBusy(true);
    setSaid(undefined);
    deed()
      .then(
        (text) => {
          if (thenClose) closeJobs();
          else if (typeof text === 'string') setSaid({ text, fault: false });
        },
        (error: unknown) => setSaid({ text: sayFault(error), fault: true }),
      )
      .finally(() => setBusy(false));
  };
  return { said, run };
};

const Demos = ({ onOpen }: { readonly onOpen: (name: string) => void }) => {
  const [shelf, setShelf] = useState<DemoShelf>();
  useEffect(() => {
    void demoShelf().then(setShelf, () => undefined);
  }, []);
  if (shelf === undefined || shelf.demos.length === 0) return null;
  return (
    <section>
      <h3>Begin with a demo</h3>
      <ul className={styles['demos']}>
        {shelf.demos.map(({ name, title, description }) => (
          <li key={name}>
            <Button aria-label={`Begin with ${title}`} onClick={() => onOpen(name)}>
              {title}
            </Button>
            <p className={styles['facts']}>{description}</p>
          </li>
        ))}
      </ul>
    </section>
  );
};

type Run = ReturnType<typeof useDeeds>['run'];

const Bin = ({ kept, run }: { readonly kept: Kept; readonly run: Run }) =>
  kept.bin.length === 0 ? null : (
    <section>
      <h3>Deleted</h3>
      <p className={styles['facts']}>Kept for a week, unless you free their room.</p>
      <ul className={styles['list']}>
        {kept.bin.map((entry) => (
          <li key={entry.id} className={styles['free']}>
            <div className={styles['words']}>
              <p>
                <b>{entry.name}</b>
              </p>
              <p className={styles['facts']}>
                {sayFrames(entry)} · deleted {sayWhen(entry.deletedAt ?? 0)}
              </p>
            </div>
            <Button
              aria-label={`Bring back ${entry.name}`}
              onClick={() => run(() => deeds.bringBack(entry))}
            >
              Bring back
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );

const JobsPartView = ({ kept, run }: { readonly kept: Kept; readonly run: Run }) => {
  const openId = useDocument((state) => state.jobId);
  return (
    <>
      {kept.jobs.length === 0 ? (
        <p className={styles['facts']}>
          No job is kept yet. The open one is, as soon as something in it is changed.
        </p>
      ) : (
        <ul className={styles['list']} aria-label="Kept jobs">
          {kept.jobs.map((entry) => (
            <JobRow
              key={entry.id}
              entry={entry}
              isOpen={entry.id === openId}
              onOpen={() => run(() => deeds.openListed(entry), true)}
              onRename={(name) => run(() => deeds.renameListed(entry, name))}
              onCopy={() => run(() => deeds.copyListed(entry))}
              onDelete={() =>
                run(async () => {
                  await deeds.deleteListed(entry);
                  return `“${entry.name}” is deleted. It lies below and can be brought back.`;
                })
              }
            />
          ))}
        </ul>
      )}
      <Bin kept={kept} run={run} />
      <Demos onOpen={(name) => run(() => deeds.beginDemo(name), true)} />
    </>
  );
};

const JobsDialog = ({ part }: { readonly part: JobsPart }) => {
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  const room = useRef<HTMLElement>(null);
  const kept = useKept();
  const { said, run } = useDeeds();
  // Before it leaves the page: a window closed after that gives the focus back to nobody.
  useLayoutEffect(() => {
    const element = dialog.current;
    element?.showModal();
    return () => element?.close();
  }, []);
  const loaded = kept !== undefined;
  useEffect(() => {
    if (part === 'room' && loaded) room.current?.scrollIntoView({ block: 'start' });
  }, [part, loaded]);
  return (
    <dialog
      ref={dialog}
      className={styles['window']}
      aria-labelledby={`${id}-title`}
      onClose={closeJobs}
    >
      <header className={styles['head']}>
        <h2 id={`${id}-title`}>Jobs</h2>
        <Button look="primary" onClick={() => run(deeds.beginNew, true)}>
          New job
        </Button>
        <Button onClick={closeJobs}>Close</Button>
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
