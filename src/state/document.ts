/**
 * The document store: the job as it stands, and the way back. Plain zustand, no React.
 * Every change names itself, so undo can say what it undoes; quick changes of the same field in a
 * row (typing, dragging a slider) fold into one step.
 */
import { createStore } from 'zustand/vanilla';
import type { Job } from '../job/schema/job.ts';
import { newJob } from '../job/schema/job.ts';

export interface Step {
  readonly label: string;
  readonly before: Job;
  /** Steps with the same key less than FOLD_MS apart become one. */
  readonly foldKey: string | undefined;
  readonly at: number;
}

export interface DocumentState {
  readonly job: Job;
  /** Under which the job is kept; no part of it, and of no step. Empty until it is known. */
  readonly jobId: string;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** False until the stored job (or the demo) has been laid in. */
  readonly ready: boolean;
  /** Why nothing may be changed, as a sentence; undefined while it may. */
  readonly lookOnly: string | undefined;
  /** How often a change was refused for that. */
  readonly refused: number;
  /** Does nothing but count while the job may only be looked at; so do undo and redo. */
  change(label: string, edit: (job: Job) => Job, foldKey?: string): void;
  undo(): void;
  redo(): void;
  /** Lays in another job, with the steps that led to it, and forgets those of the last. */
  open(job: Job, as?: { readonly jobId?: string; readonly past?: readonly Step[] }): void;
}

const FOLD_MS = 1000;
const STEPS_KEPT = 200;

export const createDocumentStore = (now: () => number = Date.now) =>
  createStore<DocumentState>()((set, get) => ({
    job: newJob(),
    jobId: '',
    past: [],
    future: [],
    ready: false,
    lookOnly: undefined,
    refused: 0,
    change(label, edit, foldKey) {
      const { job, past, lookOnly, refused } = get();
      if (lookOnly !== undefined) return set({ refused: refused + 1 });
      const next = edit(job);
      if (next === job) return;
      const last = past.at(-1);
      const folds = foldKey !== undefined && last?.foldKey === foldKey && now() - last.at < FOLD_MS;
      const step: Step = { label, before: folds ? last.before : job, foldKey, at: now() };
      const kept = folds ? past.slice(0, -1) : past.slice(-STEPS_KEPT + 1);
      // A job that the person has touched is theirs: a demo that comes later is a change to it.
      set({ job: next, past: [...kept, step], future: [], ready: true });
    },
    undo() {
      const { job, past, future, lookOnly, refused } = get();
      if (lookOnly !== undefined) return set({ refused: refused + 1 });
      const step = past.at(-1);
      if (step === undefined) return;
      set({
        job: step.before,
        past: past.slice(0, -1),
        future: [...future, { ...step, before: job, foldKey: undefined }],
      });
    },
    redo() {
      const { job, past, future, lookOnly, refused } = get();
      if (lookOnly !== undefined) return set({ refused: refused + 1 });
      const step = future.at(-1);
      if (step === undefined) return;
      set({
        job: step.before,
        past: [...past, { ...step, before: job, foldKey: undefined }],
        future: future.slice(0, -1),
      });
    },
    open(job, { jobId = get().jobId, past = [] } = {}) {
      set({ job, jobId, past, future: [], ready: true });
    },
  }));

export type DocumentStore = ReturnType<typeof createDocumentStore>;
export const documentStore: DocumentStore = createDocumentStore();
