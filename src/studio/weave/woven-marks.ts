/**
 * What was woven of which job, remembered between visits: the files themselves are gone with the page, but
 * whoever saved one wants to be told whether the job has changed since.
 */
import { digestOf } from '../../job/facts/digest.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileKind } from '../../state/tasks.ts';
import type { WovenMarks } from '../../state/kept-view.ts';
import { wovenFrom } from './woven-from.ts';

/** The kinds that are printed for the job itself, and not to test lens or paper. */
const printed: readonly FileKind[] = ['sheet', 'tiles', 'several'];

/** Without softening, whose measurement does not outlast a visit; without the other jobs on a lens sheet. */
const markOf = (job: Job): string =>
  digestOf([wovenFrom(job, undefined), job.tiles ?? null, job.gang ?? null]);

const MOST_JOBS = 60;

/** With the job as it was woven; the jobs woven longest ago drop out. */
export const withWoven = (
  marks: WovenMarks,
  jobId: string,
  kind: FileKind,
  job: Job,
): WovenMarks => {
  if (!printed.includes(kind)) return marks;
  const others = Object.entries(marks).filter(([id]) => id !== jobId);
  return Object.fromEntries([...others.slice(1 - MOST_JOBS), [jobId, markOf(job)]]);
};

export const standingByMark = (mark: string, job: Job): 'woven' | 'stale' =>
  mark === markOf(job) ? 'woven' : 'stale';
