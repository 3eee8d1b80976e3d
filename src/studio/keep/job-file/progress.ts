/** How saving or opening a job file goes: one of them at a time. */
import { createStore } from 'zustand/vanilla';
import type { NoticeKind } from '../../../ui/index.ts';
import { closeJobs } from '../job-list-window.ts';

/** What there is to say when it has ended, until it is put away. */
export interface CarryNotice {
  readonly kind: NoticeKind;
  readonly title: string;
  readonly text: string;
  /** Address of the saved file, where it lies on the browser's private disk. */
  readonly href?: string;
  readonly fileName?: string;
}

export interface CarryWork {
  /** The way there: writing, reading, or looking at the pictures that were read. */
  readonly stage: 'saving' | 'reading' | 'looking';
  readonly fileName: string;
  readonly done: number;
  readonly total: number;
}

interface CarryState {
  readonly work: CarryWork | undefined;
  readonly notice: CarryNotice | undefined;
}

export const carryStore = createStore<CarryState>()(() => ({
  work: undefined,
  notice: undefined,
}));

let halt: AbortController | undefined;

export const stopCarrying = (): void => halt?.abort();

export const sayCarried = (notice: CarryNotice | undefined): void =>
  carryStore.setState({ notice });

export const isCarrying = (): boolean => halt !== undefined;

/** Runs one piece of work; does nothing while another is under way. Whatever it throws is `onFault`'s. */
export const carry = async (
  work: (signal: AbortSignal) => Promise<CarryNotice | undefined>,
  onFault: (error: unknown) => CarryNotice,
): Promise<void> => {
  if (halt !== undefined) return;
  halt = new AbortController();
  // How it goes, and how it went, stands at the head of the page.
  closeJobs();
  sayCarried(undefined);
  try {
    sayCarried(await work(halt.signal));
  } catch (error) {
    sayCarried(onFault(error));
  } finally {
    halt = undefined;
    carryStore.setState({ work: undefined });
  }
};

const REPORT_EVERY_MS = 100;

/** Shows how far the work is, a few times a second. */
export const progressOf = (stage: CarryWork['stage'], fileName: string) => {
  let shownAt = -Infinity;
  return (done: number, total: number): void => {
    const now = performance.now();
    if (now - shownAt < REPORT_EVERY_MS && done < total) return;
    shownAt = now;
    carryStore.setState({ work: { stage, fileName, done, total } });
  };
};
