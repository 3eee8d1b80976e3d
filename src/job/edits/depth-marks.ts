/** Edits of the things on the depth ruler. A thing is named by its place in the list. */
import { depthMarksOf } from '../facts/plan.ts';
import type { DepthMark, Job } from '../schema/job.ts';

export const MOST_MARKS = 24;

const withMarks = (job: Job, depthMarks: DepthMark[]): Job => ({ ...job, depthMarks });

/** Adds a thing at the end of the list, under the first free name "Thing 1", "Thing 2" … */
export const addMark = (job: Job, zMm: number): Job => {
  const marks = depthMarksOf(job);
  const taken = new Set(marks.map(({ name }) => name));
  let number = 1;
  while (taken.has(`Thing ${number}`)) number += 1;
  return withMarks(job, [...marks, { name: `Thing ${number}`, zMm }]);
};

export const setMark = (job: Job, place: number, change: Partial<DepthMark>): Job =>
  withMarks(
    job,
    depthMarksOf(job).map((mark, i) => (i === place ? { ...mark, ...change } : mark)),
  );

export const removeMark = (job: Job, place: number): Job =>
  withMarks(
    job,
    depthMarksOf(job).filter((_, i) => i !== place),
  );
