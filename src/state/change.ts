/** Changes that may be refused: the job keeps what it had, and the person is told why. */
import * as v from 'valibot';
import type { Job } from '../job/schema/job.ts';
import { jobSchema } from '../job/schema/job.ts';
import { recallPitch } from '../job/facts/pitch-history.ts';
import { documentStore } from './document.ts';
import { workStore } from './work.ts';

/**
 * Makes the change when the schema accepts the outcome. Returns undefined, or the sentence of the
 * first thing it would have broken, or why the job may only be looked at. A pitch proved earlier for the lens and printer that the change
 * leads to comes with it, in the same step.
 */
export const tryChange = (
  label: string,
  edit: (job: Job) => Job,
  foldKey?: string,
): string | undefined => {
  const { job, change, lookOnly } = documentStore.getState();
  if (lookOnly !== undefined) {
    change(label, edit, foldKey);
    return lookOnly;
  }
  const next = recallPitch(job, edit(job), workStore.getState().pitchReadings);
  const checked = v.safeParse(jobSchema, next);
  if (!checked.success) return checked.issues[0].message;
  change(label, () => next, foldKey);
  return undefined;
};
