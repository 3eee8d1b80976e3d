import type { Exactness } from '../../../job/job.ts';
import { exactnessOf } from '../../../job/plan.ts';
import { tryChange } from '../../../state/change.ts';

export const changeExactness = (label: string, change: Partial<Exactness>): string | undefined =>
  tryChange(
    label,
    (job) => ({ ...job, exactness: { ...exactnessOf(job), ...change } }),
    `exactness.${label}`,
  );
