/** Changes that may be refused: the job keeps what it had, and the person is told why. */
import * as v from 'valibot';
import type { Job } from '../job/job.ts';
import { jobSchema } from '../job/job.ts';
import { documentStore } from './document.ts';

/**
 * Makes the change when the schema accepts the outcome. Returns undefined, or the sentence of the
 * first thing it would have broken.
 */
export const tryChange = (
  label: string,
  edit: (job: Job) => Job,
  foldKey?: string,
): string | undefined => {
  const { job, change } = documentStore.getState();
  const next = edit(job);
  const checked = v.safeParse(jobSchema, next);
  if (!checked.success) return checked.issues[0].message;
  change(label, () => next, foldKey);
  return undefined;
};
