/** The gang of the open job, and the kept jobs that may lie on its lens. */
import { useMemo } from 'react';
import type { GangView } from '../../../job/facts/gang-view.ts';
import { gangViewOf } from '../../../job/facts/gang-view.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useJob } from '../../studio.ts';

const none: ReadonlyMap<string, Job> = new Map();

/** What of the job the layout depends on, so that it is not found again at every change of the rest. */
export const useGangView = (others: ReadonlyMap<string, Job> | undefined): GangView => {
  const job = useJob();
  return useMemo(() => gangViewOf(job, others ?? none), [job, others]);
};
