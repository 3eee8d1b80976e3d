/** A change of the job as a value: what undo calls it, what it does, and what it folds with. */
import type { Job } from '../schema/job.ts';

/**
 * The label stands in "Undo …"; edits in a row with the same fold key (typing, dragging a slider) become
 * one step. An edit that changes nothing returns the very job it was given.
 */
export type JobEdit = readonly [label: string, edit: (job: Job) => Job, foldKey?: string];
