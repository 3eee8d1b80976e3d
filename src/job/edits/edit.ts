/** A change of the job as a value: its label for undo, what it does, and its fold key. */
import type { Job } from '../schema/job.ts';

/**
 * The label stands in "Undo …". Edits in a row with the same fold key (typing, dragging a slider) become
 * one step. An edit that changes nothing returns the same job object.
 */
export type JobEdit = readonly [label: string, edit: (job: Job) => Job, foldKey?: string];

const LOOK = 'look.';

/** Fold key of choosing and looking: all that are made in a row become one step, however long they take. */
export const lookKey = (what: string): string => `${LOOK}${what}`;

export const isLook = (foldKey: string): boolean => foldKey.startsWith(LOOK);

/** Makes the edits of one part of the job. Those with the same label fold. */
export const editsOf =
  <Change>(part: string, set: (job: Job, change: Change) => Job) =>
  (label: string, change: Change): JobEdit => [
    label,
    (job) => set(job, change),
    `${part}.${label}`,
  ];
