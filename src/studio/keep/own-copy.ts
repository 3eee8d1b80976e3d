/** What happens when a person changes a demo print: the open job is a copy of their own from then on. */
import { untakenJobName } from '../../job/facts/free-name.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { JobWriter } from './job-writer.ts';
import { rememberOpen } from './last-open.ts';

/** A second copy of the same demo gets a number, in its undo steps too. */
const nameApart = async ({ document: store, disk }: Floor, jobId: string, name: string) => {
  const listed = await disk.jobs.listJobs().catch(() => []);
  const others = listed.filter(({ id }) => id !== jobId).map((one) => one.name);
  const free = untakenJobName(name, new Set(others));
  const { job, past, jobId: nowOpen } = store.getState();
  if (free === name || nowOpen !== jobId) return;
  const renamed = (one: Job): Job => (one.name === name ? { ...one, name: free } : one);
  store.setState({
    job: renamed(job),
    past: past.map((step) => ({ ...step, before: renamed(step.before) })),
  });
};

/** Keeps the copy as it begins, before the change to it. Returns what ends the watch. */
export const followCopies = (floor: Floor, writer: JobWriter): (() => void) =>
  floor.document.subscribe(({ job, jobId, past }, before) => {
    if (before.job.demo === undefined || job.demo !== undefined || jobId !== before.jobId) return;
    const copy = past.at(-1)?.before;
    if (copy === undefined) return;
    rememberOpen(jobId);
    writer.keepSoon({ jobId, job: copy, settled: { label: 'as it began' } });
    void writer.flush();
    floor.inform(
      `“${copy.name}” is a job of your own from here on. The demo “${before.job.name}” stays as it was, under Jobs.`,
    );
    void nameApart(floor, jobId, copy.name);
  });
