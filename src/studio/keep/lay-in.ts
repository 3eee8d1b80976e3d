/** A kept job into the document, in the place of the one before, and what belongs to it. */
import type { Held } from '../../files/job-hold.ts';
import type { LoadedJob, SetAside } from '../../files/job-store.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { JobWriter } from './job-writer.ts';
import { rememberOpen } from './last-open.ts';

const elsewhere = 'This job is open in another tab. Take it over to change it here.';

const tornWords = (jobName: string, { reason, keptAs }: SetAside): string =>
  `The newest state of “${jobName}” could not be read, so the one before it is open. ${reason} ` +
  `Nothing was deleted: it lies in this browser's storage as “${keptAs}”.`;

/** Steps of earlier visits come behind the job, which need not wait for them. */
const recallSteps = async (
  { document: store, disk: { jobs } }: Floor,
  id: string,
  seq: number,
): Promise<void> => {
  const steps = await jobs.loadPast(id, seq).catch(() => []);
  const { jobId, past } = store.getState();
  if (jobId !== id) return;
  const recalled = steps.map((step) => ({ ...step, foldKey: undefined }));
  store.setState({ past: [...recalled, ...past] });
};

/** A page that went before a frame's copy was whole leaves a job that names what is nowhere. */
const lookForOriginals = async (
  { document: store, work, disk }: Floor,
  id: string,
  { frames }: Job,
): Promise<void> => {
  work.setState({ missingOriginals: new Set() });
  const gone = await disk.frames.missing(frames.map((frame) => frame.id)).catch(() => []);
  if (gone.length > 0 && store.getState().jobId === id)
    work.setState({ missingOriginals: new Set(gone) });
};

/** @param held whether this tab may write the job, or only looks on. */
export const layIn = (
  floor: Floor,
  writer: JobWriter,
  jobId: string,
  { job, seq, setAside, toKeep }: LoadedJob & { kind: 'job' },
  held: Held,
): void => {
  const { document: store, tell } = floor;
  store.setState({ lookOnly: held === 'elsewhere' ? elsewhere : undefined });
  store.getState().open(job, { jobId });
  // It came from the disk.
  writer.forget();
  if (toKeep !== undefined) {
    // A step that an earlier visit made on a full disk: it stands in the page again, and is to be kept still.
    const { label } = toKeep;
    const past = [{ label, before: job, foldKey: undefined, at: Date.now() }];
    store.getState().open(toKeep.job, { jobId, past });
    writer.keepSoon({ jobId, job: toKeep.job, settled: { label } });
  }
  rememberOpen(jobId);
  void lookForOriginals(floor, jobId, toKeep?.job ?? job);
  const [torn] = setAside;
  if (torn !== undefined) tell(tornWords(job.name, torn));
  if (held !== 'elsewhere') void recallSteps(floor, jobId, seq);
};
