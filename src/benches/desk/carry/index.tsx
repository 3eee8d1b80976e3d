/** Saving the job to a file and opening one: buttons on the job sheet, keys, a drop, and what is said of it. */
import type { ChangeEvent } from 'react';
import { useEffect, useRef } from 'react';
import { createPortal } from 'react-dom';
import { useStore } from 'zustand';
import { BUNDLE_MIME } from '../../../files/bundle.ts';
import { canChooseFile } from '../../../files/sinks.ts';
import { Button, Notice, ProgressBar, buttonClass } from '../../../ui/index.ts';
import type { CarryWork } from '../../../studio/keep/job-file/progress.ts';
import { carryStore, sayCarried, stopCarrying } from '../../../studio/keep/job-file/progress.ts';
import styles from './carry.module.css';
import type { Standing } from '../../../studio/keep/job-file/marks.ts';
import { standingStore, startMarking } from '../../../studio/keep/job-file/marks.ts';
import { useJobDrop } from './use-job-drop.ts';

const openFile = async (file: File) =>
  (await import('../../../studio/keep/job-file/open.ts')).openJobFile(file);
const save = async (anew: boolean) =>
  (await import('../../../studio/keep/job-file/save.ts')).saveJobFile(anew);

const standingWords = (standing: Standing): string => {
  if (standing.kind === 'never') return 'Not saved to a file yet';
  return standing.kind === 'saved'
    ? `Saved to ${standing.fileName}`
    : `Changed since it was saved to ${standing.fileName}`;
};

/** A dot beside the job sheet's name: hollow, full, or none, so that it is told without colour too. */
export const UnsavedMark = () => {
  const standing = useStore(standingStore, (state) => state.standing);
  useEffect(() => startMarking(), []);
  const words = standingWords(standing);
  return (
    <span
      role="img"
      aria-label={words}
      title={words}
      className={styles['mark']}
      data-standing={standing.kind}
    />
  );
};

/** What is typed in a field that was not left yet belongs to the job as the person sees it. */
const takeInTyped = (): void => {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
  field.blur();
  field.focus();
};

/** Ctrl/Cmd+S saves, with Shift as another file; Ctrl/Cmd+O opens. */
const useCarryKeys = (choose: () => void): void => {
  const latest = useRef(choose);
  useEffect(() => {
    latest.current = choose;
  }, [choose]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === 's') {
        takeInTyped();
        void save(event.shiftKey);
      } else if (key === 'o' && !event.shiftKey) latest.current();
      else return;
      event.preventDefault();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
};

export const CarryButtons = () => {
  const input = useRef<HTMLInputElement>(null);
  const busy = useStore(carryStore, ({ work }) => work !== undefined);
  useCarryKeys(() => input.current?.click());
  const onChosen = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // So that the same file can be chosen again.
    event.target.value = '';
    if (file !== undefined) void openFile(file);
  };
  return (
    <div className={styles['tools']} role="group" aria-label="Job file">
      <Button look="quiet" off={busy} title="Ctrl+S" onClick={() => void save(false)}>
        Save job file
      </Button>
      {canChooseFile() && (
        <Button look="quiet" off={busy} title="Ctrl+Shift+S" onClick={() => void save(true)}>
          Save as
        </Button>
      )}
      <Button look="quiet" off={busy} title="Ctrl+O" onClick={() => input.current?.click()}>
        Open job file
      </Button>
      {/* Behind everything, the button speaks for it: a page's first file input is the open bench's own. */}
      {createPortal(
        <input
          ref={input}
          type="file"
          accept={`.zip,${BUNDLE_MIME}`}
          aria-label="Open job file"
          aria-hidden
          className="unseen"
          tabIndex={-1}
          onChange={onChosen}
        />,
        document.body,
      )}
    </div>
  );
};

const stages: Readonly<Record<CarryWork['stage'], { label: string; stop: string }>> = {
  saving: { label: 'Saving the job file', stop: 'Stop saving' },
  reading: { label: 'Reading the job file', stop: 'Stop opening' },
  looking: { label: 'Looking at the pictures', stop: 'Stop opening' },
};

const Progress = ({ stage, done, total }: CarryWork) => {
  const { label, stop } = stages[stage];
  const scale = stage === 'looking' ? 1 : 2 ** 20;
  const inUnits = (count: number) => (scale === 1 ? count : Math.ceil(count / scale));
  return (
    <div className={styles['progress']}>
      <ProgressBar
        label={label}
        done={inUnits(done)}
        total={inUnits(total)}
        of={stage === 'looking' ? 'pictures' : 'MB'}
      />
      <Button onClick={stopCarrying}>{stop}</Button>
    </div>
  );
};

/** At the head of the page, whatever bench is open. */
export const CarryStatus = () => {
  const { work, notice } = useStore(carryStore);
  useJobDrop();
  if (work === undefined && notice === undefined) return null;
  return (
    <div className={styles['status']}>
      {work !== undefined && <Progress {...work} />}
      {notice !== undefined && (
        <Notice kind={notice.kind} title={notice.title} announce>
          <p>{notice.text}</p>
          <div className={styles['row']}>
            {notice.href !== undefined && (
              <a className={buttonClass()} href={notice.href} download={notice.fileName}>
                Download it again
              </a>
            )}
            <Button onClick={() => sayCarried(undefined)}>Put away</Button>
          </div>
        </Notice>
      )}
    </div>
  );
};
