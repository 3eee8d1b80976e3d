/** Puts a kept job into the document in place of the open one, with its undo steps. */
import { nameInText } from '../../core/names/shown.ts';
import type { Held } from '../../files/job-hold.ts';
import type { LoadedJob, SetAside } from '../../files/job-store.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { JobWriter } from './job-writer.ts';
import { rememberOpen } from './last-open.ts';

const elsewhere = 'This job is open in another tab. Take it over to change it here.';

const tornWords = (jobName: string, { reason, keptAs }: SetAside): string =>
  `The newest state of “${nameInText(jobName)}” could not be read, so the one before it is open. ${reason} ` +
  `Nothing was deleted: it lies in this browser's storage as “${keptAs}”.`;

/** Reads the undo steps of earlier visits, after the job is shown. */
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

/**
 * Marks frames without an original: a page may have closed before it had copied a frame's file.
 */
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

/** A demo print, to look at. */
export const layInDemo = (
  floor: Floor,
  writer: JobWriter,
  {
    jobId,
    demo,
    keptId,
  }: { readonly jobId: string; readonly demo: Job; readonly keptId: string | undefined },
): void => {
  floor.document.setState({ lookOnly: undefined });
  floor.document.getState().open(demo, { jobId });
  writer.forget();
  if (keptId !== undefined) rememberOpen(keptId);
  void lookForOriginals(floor, jobId, demo);
};

/** @param held whether this tab may write the job or only show it. */
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
  // The job comes from the disk, so it need not be written.
  writer.forget();
  if (toKeep !== undefined) {
    // An earlier visit could not write this step to a full disk: write it now.
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
