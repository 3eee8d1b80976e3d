/** Remembers which state of each job was saved to a file, so that the page can say whether it is saved. */
import { createStore } from 'zustand/vanilla';
import { shownName } from '../../../core/names/shown.ts';
import { bundleName } from '../../../files/bundle.ts';
import { digestOf } from '../../../job/facts/digest.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { Floor } from '../../floor.ts';

interface Mark {
  readonly jobId: string;
  readonly digest: string;
  readonly fileName: string;
  /** The job's name when it was saved. */
  readonly jobName?: string;
}

export type Standing =
  { readonly kind: 'never' } | { readonly kind: 'changed' | 'saved'; readonly fileName: string };

const KEY = 'tiltloom-job-files';
const MARKS_AT_MOST = 200;
/** Longer than the pause between two letters: the job is compared once, after typing. */
const SETTLE_MS = 250;

const isMark = (value: unknown): value is Mark =>
  typeof value === 'object' &&
  value !== null &&
  ['jobId', 'digest', 'fileName'].every(
    (key) => typeof (value as Record<string, unknown>)[key] === 'string',
  );

const readMarks = (): Mark[] => {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(stored) ? stored.filter(isMark) : [];
  } catch {
    return [];
  }
};

const standingOf = (jobId: string, job: Job): Standing => {
  const mark = readMarks().find((one) => one.jobId === jobId);
  if (mark === undefined) return { kind: 'never' };
  const { fileName } = mark;
  return { kind: mark.digest === digestOf(job) ? 'saved' : 'changed', fileName };
};

export const createJobFileMarks = ({ document }: Floor) => {
  const store = createStore<{ readonly standing: Standing }>()(() => ({
    standing: { kind: 'never' },
  }));

  const look = (): void => {
    const { job, jobId } = document.getState();
    store.setState({ standing: standingOf(jobId, job) });
  };

  return {
    store,

    /** The job was saved to this file in this state. */
    markSaved: (jobId: string, job: Job, fileName: string): void => {
      const others = readMarks().filter((mark) => mark.jobId !== jobId);
      const mark: Mark = { jobId, digest: digestOf(job), fileName, jobName: job.name };
      const marks = [mark, ...others].slice(0, MARKS_AT_MOST);
      try {
        localStorage.setItem(KEY, JSON.stringify(marks));
      } catch {
        // The page then says that the job is not saved, which does no harm.
      }
      look();
    },

    /**
     * The file name for the next save: as before, unless the job was renamed, or the file's own name, which
     * may be anybody's, turns its direction.
     */
    fileNameFor: (jobId: string, { name }: Job): string => {
      const mark = readMarks().find((one) => one.jobId === jobId);
      const isAsBefore = mark?.jobName === name && /\.zip$/i.test(mark.fileName);
      return isAsBefore && shownName(mark.fileName) === mark.fileName
        ? mark.fileName
        : bundleName(name);
    },

    /** Follows the document from now on. @returns what ends that */
    start: (): (() => void) => {
      let timer: ReturnType<typeof setTimeout> | undefined;
      look();
      const forget = document.subscribe((now, before) => {
        if (now.job === before.job && now.jobId === before.jobId) return;
        clearTimeout(timer);
        timer = setTimeout(look, SETTLE_MS);
      });
      return () => {
        clearTimeout(timer);
        forget();
      };
    },
  };
};
