/** The job that comes next: empty, on the lens and printer that the person worked with last. */
import { beginJob } from '../../job/edits/begin.ts';
import { untakenJobName } from '../../job/facts/free-name.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';

/** The person's last job: the open one, else the newest that is kept. A demo print is nobody's. */
const lastOwn = async ({ document, disk: { jobs } }: Floor): Promise<Job | undefined> => {
  const { job, jobId } = document.getState();
  if (jobId !== '' && job.demo === undefined) return job;
  const newest = (await jobs.listJobs()).find(({ demo }) => demo === undefined);
  if (newest === undefined) return undefined;
  const loaded = await jobs.loadJobById(newest.id);
  return loaded.kind === 'job' ? loaded.job : undefined;
};

/** @param name a number is added where another kept job has it */
export const nextJob = async (floor: Floor, name?: string): Promise<Job> => {
  const last = await lastOwn(floor).catch(() => undefined);
  if (name === undefined) return beginJob(last);
  const listed = await floor.disk.jobs.listJobs().catch(() => []);
  return beginJob(last, untakenJobName(name, new Set(listed.map((one) => one.name))));
};
