import type { Exactness } from '../schema/job.ts';
import { exactnessOf } from '../facts/plan.ts';
import { editsOf } from './edit.ts';

export const changeExactness = editsOf('exactness', (job, change: Partial<Exactness>) => ({
  ...job,
  exactness: { ...exactnessOf(job), ...change },
}));
