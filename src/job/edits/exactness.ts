import type { Exactness } from '../schema/job.ts';
import { exactnessOf } from '../facts/plan.ts';
import type { JobEdit } from './edit.ts';

export const changeExactness = (label: string, change: Partial<Exactness>): JobEdit => [
  label,
  (job) => ({ ...job, exactness: { ...exactnessOf(job), ...change } }),
  `exactness.${label}`,
];
