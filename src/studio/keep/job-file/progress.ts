/** Progress and outcome of saving or opening a job file, one at a time. */
import { createStore } from 'zustand/vanilla';
import type { KeptSink } from '../../../files/sinks.ts';
import type { JobListWindow } from '../job-list-window.ts';

/** The outcome, until it is dismissed. */
export interface JobFileNotice {
  readonly kind: 'info' | 'problem';
  readonly title: string;
  readonly text: string;
  /** Address of the saved file, if it is on the browser's private disk. */
  readonly href?: string;
  readonly fileName?: string;
}

export interface JobFileWork {
  /** Writing the file, reading it, or decoding its pictures. */
  readonly stage: 'saving' | 'reading' | 'looking';
  readonly fileName: string;
  readonly done: number;
  readonly total: number;
}

interface JobFileState {
  readonly work: JobFileWork | undefined;
  readonly notice: JobFileNotice | undefined;
}

const REPORT_EVERY_MS = 100;

export const createJobFile = (jobList: JobListWindow) => {
  const store = createStore<JobFileState>()(() => ({ work: undefined, notice: undefined }));
  let halt: AbortController | undefined;
  let asking = false;
  /** Stays until the next file is done, because it may still be downloading. */
  let lastKept: { readonly sink: KeptSink; readonly href: string } | undefined;

  const say = (notice: JobFileNotice | undefined): void => store.setState({ notice });

  return {
    store,
    say,

    /** By job: the file that was chosen for it, for as long as the page is open. */
    places: new Map<string, FileSystemFileHandle>(),

    /** True also while a dialog asks for the file. */
    isRunning: (): boolean => halt !== undefined || asking,

    stop: (): void => halt?.abort(),

    /** A browser refuses a second dialog while one is open. */
    whileAsking: async <T>(dialog: () => Promise<T>): Promise<T> => {
      asking = true;
      try {
        return await dialog();
      } finally {
        asking = false;
      }
    },

    /** Runs one piece of work; does nothing while another is under way. `onFault` gets what it throws. */
    run: async (
      work: (signal: AbortSignal) => Promise<JobFileNotice | undefined>,
      onFault: (error: unknown) => JobFileNotice,
    ): Promise<void> => {
      if (halt !== undefined) return;
      halt = new AbortController();
      // The list of jobs would cover the progress and the outcome.
      jobList.close();
      say(undefined);
      try {
        say(await work(halt.signal));
      } catch (error) {
        say(onFault(error));
      } finally {
        halt = undefined;
        store.setState({ work: undefined });
      }
    },

    /** Shows the progress, a few times a second. */
    progressOf: (stage: JobFileWork['stage'], fileName: string) => {
      let shownAt = -Infinity;
      return (done: number, total: number): void => {
        const now = performance.now();
        if (now - shownAt < REPORT_EVERY_MS && done < total) return;
        shownAt = now;
        store.setState({ work: { stage, fileName, done, total } });
      };
    },

    /** The address of a saved file on the private disk. Removes the file before it. */
    addressOf: async (sink: KeptSink): Promise<string> => {
      const href = URL.createObjectURL(await sink.file());
      if (lastKept !== undefined) {
        URL.revokeObjectURL(lastKept.href);
        lastKept.sink.discard().catch(() => undefined);
      }
      lastKept = { sink, href };
      return href;
    },
  };
};
