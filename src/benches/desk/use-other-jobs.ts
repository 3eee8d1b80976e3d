/** The kept jobs besides the open one, read from the disk. */
import { useCallback } from 'react';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../../studio/studio.ts';
import { useDocument, useStudio, useWork } from '../studio.ts';
import { useComing } from './use-coming.ts';

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
