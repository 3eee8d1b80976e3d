/** How saving or opening a job file goes: one of them at a time. */
import { createStore } from 'zustand/vanilla';
import type { KeptSink } from '../../../files/sinks.ts';
import type { JobListWindow } from '../job-list-window.ts';

/** What there is to say when it has ended, until it is dismissed. */
export interface JobFileNotice {
  readonly kind: 'info' | 'problem';
  readonly title: string;
  readonly text: string;
  /** Address of the saved file, where it lies on the browser's private disk. */
  readonly href?: string;
  readonly fileName?: string;
}

export interface JobFileWork {
  /** The way there: writing, reading, or looking at the pictures that were read. */
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
  /** Stays until the next is done: it may be on its way into a download. */
  let lastKept: { readonly sink: KeptSink; readonly href: string } | undefined;

  const say = (notice: JobFileNotice | undefined): void => store.setState({ notice });

  return {
    store,
    say,

    /** By job: the file that was chosen for it, for as long as the page is open. */
    places: new Map<string, FileSystemFileHandle>(),

    /** Also while a dialog asks for the file. */
    isRunning: (): boolean => halt !== undefined || asking,

    stop: (): void => halt?.abort(),

    /** A browser shows one dialog at a time, and refuses the second. */
    whileAsking: async <T>(dialog: () => Promise<T>): Promise<T> => {
      asking = true;
      try {
        return await dialog();
      } finally {
        asking = false;
      }
    },

    /** Runs one piece of work; does nothing while another is under way. Whatever it throws is `onFault`'s. */
    run: async (
      work: (signal: AbortSignal) => Promise<JobFileNotice | undefined>,
      onFault: (error: unknown) => JobFileNotice,
    ): Promise<void> => {
      if (halt !== undefined) return;
      halt = new AbortController();
      // How it goes, and how it went, stands at the head of the page.
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

    /** Shows how far the work is, a few times a second. */
    progressOf: (stage: JobFileWork['stage'], fileName: string) => {
      let shownAt = -Infinity;
      return (done: number, total: number): void => {
        const now = performance.now();
        if (now - shownAt < REPORT_EVERY_MS && done < total) return;
        shownAt = now;
        store.setState({ work: { stage, fileName, done, total } });
      };
    },

    /** Address of a saved file on the private disk. The one before it is let go. */
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

export type JobFile = ReturnType<typeof createJobFile>;
