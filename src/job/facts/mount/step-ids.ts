/** Which steps a job's print takes, without their words: the first view counts them, and the words come with the bench. */
import type { Job } from '../../schema/job.ts';
import { pitchBudget } from '../pitch.ts';

/** The labels of a strip are rounded, so a pitch may be this much less exact. */
const ROUNDING = 1.005;

/** Whether the pitch is known as exactly as this print needs. */
export const isPitchProvedEnough = (job: Job): boolean => {
  if (job.provedPitch === undefined) return false;
  const plusMinus = job.provedPitch.plusMinusLpi;
  return plusMinus === undefined || plusMinus <= pitchBudget(job) * ROUNDING;
};

/** In the order of the work. Jobs keep them, so they never change. */
const always = [
  ...['paper', 'grid', 'no-scaling', 'no-enhancement', 'one-direction', 'way-round', 'measure'],
  ...['dry', 'clean', 'lay', 'square', 'centre', 'tack', 'look-again', 'roll', 'rest'],
  ...['trim-sides', 'trim-ends', 'show'],
] as const;

export const mountStepIds = (job: Job): readonly string[] =>
  isPitchProvedEnough(job) ? always : ['prove-pitch', ...always];
