/**
 * The document store: the job and its undo steps. Plain zustand, no React. Every change has a label, so that
 * undo can say what it undoes. Quick changes of one field (typing, dragging a slider) fold into one step.
 */
import { createStore } from 'zustand/vanilla';
import * as v from 'valibot';
import { ownCopyOf } from '../job/edits/begin.ts';
import type { JobEdit } from '../job/edits/edit.ts';
import { isLook } from '../job/edits/edit.ts';
import type { Job } from '../job/schema/job.ts';
import { jobSchema, newJob } from '../job/schema/job.ts';

export interface Step {
  readonly label: string;
  readonly before: Job;
  /** Steps with the same key less than FOLD_MS apart become one; those of looking, however far apart. */
  readonly foldKey: string | undefined;
  readonly at: number;
  /** The bench where it happened; left out where that is not known, or every bench shows it. */
  readonly bench?: string | undefined;
}

export interface DocumentState {
  readonly job: Job;
  /** The id the job is stored under. Not part of the job or of undo. Empty until it is known. */
  readonly jobId: string;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** False until the stored job (or the demo) is in the store. */
  readonly ready: boolean;
  /** Why nothing may be changed, as a sentence; undefined while it may. */
  readonly lookOnly: string | undefined;
  /** How often a change was refused for that. */
  readonly refused: number;
  /**
   * Makes the change if the schema accepts the result. Returns undefined, or a sentence that says why not:
   * the first rule it would break, or why the job is read-only. A read-only job has no undo and redo either. A
   * change of a demo print is made to a copy of the person's own, which takes its place.
   */
  change(...edit: JobEdit): string | undefined;
  undo(): void;
  redo(): void;
  /** Opens another job with its undo steps. */
  open(job: Job, as?: { readonly jobId?: string; readonly past?: readonly Step[] }): void;
}

/** Frames that are in the job already were checked when they came: there may be thousands. */
const withNewFramesOnly = (before: Job, after: Job): Job => {
  const checked = new Set(before.frames);
  return { ...after, frames: after.frames.filter((frame) => !checked.has(frame)) };
};

const FOLD_MS = 1000;
const STEPS_KEPT = 200;

interface Options {
  readonly now?: () => number;
  /** Adds the consequences of a change, in the same step. */
  readonly follow?: (before: Job, after: Job) => Job;
  /** The bench that a change of this label belongs to. */
  readonly benchOf?: (label: string) => string | undefined;
}

const isAlike = (one: unknown, other: unknown): boolean =>
  one === other || JSON.stringify(one) === JSON.stringify(other);

/** Frames there may be thousands of: those that nobody touched are the very same. */
const sameFrames = (one: Job['frames'], other: Job['frames']): boolean =>
  one === other ||
  (one.length === other.length && one.every((frame, at) => isAlike(frame, other[at])));

/** Whether a folded step has come back to where it began. */
const isSame = (one: Job, other: Job): boolean => {
  const names = new Set([...Object.keys(one), ...Object.keys(other)]) as Set<keyof Job>;
  return [...names].every((name) =>
    name === 'frames' ? sameFrames(one.frames, other.frames) : isAlike(one[name], other[name]),
  );
};

export const createDocumentStore = ({
  now = Date.now,
  follow = (_, job) => job,
  benchOf = () => undefined,
}: Options = {}) =>
  createStore<DocumentState>()((set, get) => {
    /** Takes the last step of one list, and puts the way back into the other. */
    const travel = (from: 'past' | 'future', to: 'past' | 'future'): void => {
      const { job, lookOnly, refused, [from]: steps, [to]: others } = get();
      if (lookOnly !== undefined) return set({ refused: refused + 1 });
      const step = steps.at(-1);
      if (step === undefined) return;
      const back = { ...step, before: job, foldKey: undefined };
      set({ job: step.before, [from]: steps.slice(0, -1), [to]: [...others, back] });
    };
    return {
      job: newJob(),
      jobId: '',
      past: [],
      future: [],
      ready: false,
      lookOnly: undefined,
      refused: 0,
      change(label, edit, foldKey) {
        const { job, past, lookOnly, refused } = get();
        if (lookOnly !== undefined) {
          set({ refused: refused + 1 });
          return lookOnly;
        }
        const from = job.demo === undefined ? job : ownCopyOf(job);
        const edited = edit(from);
        if (edited === from) return undefined;
        const next = follow(from, edited);
        const checked = v.safeParse(jobSchema, withNewFramesOnly(from, next));
        if (!checked.success) return checked.issues[0].message;
        const last = past.at(-1);
        const folds =
          foldKey !== undefined &&
          last?.foldKey === foldKey &&
          (isLook(foldKey) || now() - last.at < FOLD_MS);
        const began = folds ? last.before : from;
        const step: Step = { label, before: began, foldKey, at: now(), bench: benchOf(label) };
        const kept = folds ? past.slice(0, -1) : past.slice(-STEPS_KEPT + 1);
        const isUndone = folds && isSame(began, next);
        set({ job: next, past: isUndone ? kept : [...kept, step], future: [], ready: true });
        return undefined;
      },
      undo: () => travel('past', 'future'),
      redo: () => travel('future', 'past'),
      open(job, { jobId = get().jobId, past = [] } = {}) {
        set({ job, jobId, past, future: [], ready: true });
      },
    };
  });
