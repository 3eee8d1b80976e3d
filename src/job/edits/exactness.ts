import type { Exactness } from '../schema/job.ts';
import { exactnessOf } from '../facts/plan.ts';
import { tryChange } from '../../state/change.ts';

export const changeExactness = (label: string, change: Partial<Exactness>): string | undefined =>
  tryChange(
    label,
    (job) => ({ ...job, exactness: { ...exactnessOf(job), ...change } }),
    `exactness.${label}`,
  );
