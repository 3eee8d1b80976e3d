/** The gang of the open job, and the kept jobs that may lie on its lens. */
import { useCallback, useMemo } from 'react';
import type { GangView } from '../../../job/facts/gang.ts';
import { gangViewOf } from '../../../job/facts/gang.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useComing } from '../../desk/use-coming.ts';
import type { Studio } from '../../../studio/studio.ts';
import { useDocument, useJob, useStudio, useWork } from '../../studio.ts';

const none: ReadonlyMap<string, Job> = new Map();

const loadOthers = async ({ disk }: Studio, openId: string): Promise<ReadonlyMap<string, Job>> => {
  const jobs = new Map<string, Job>();
  for (const { id } of await disk.jobs.listJobs()) {
    const loaded = id === openId ? undefined : await disk.jobs.loadJobById(id);
    if (loaded?.kind === 'job') jobs.set(id, loaded.job);
  }
  return jobs;
};

/** All kept jobs but the open one, by id; undefined until they have been read. */
export const useOtherJobs = (): ReadonlyMap<string, Job> | undefined => {
  const studio = useStudio();
  const changes = useWork((work) => work.jobsChanged);
  const openId = useDocument((state) => state.jobId);
  const ask = useCallback(() => loadOthers(studio, openId).catch(() => none), [studio, openId]);
  return useComing(ask, changes);
};

/** What of the job the layout depends on, so that it is not found again at every change of the rest. */
export const useGangView = (others: ReadonlyMap<string, Job> | undefined): GangView => {
  const job = useJob();
  return useMemo(() => gangViewOf(job, others ?? none), [job, others]);
};
