/** Weaving the sheet of the job as it stands: from the button to the finished file. */
import { toWorkError } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { KeptSink } from '../../files/sinks.ts';
import { openChosenSink, openKeptSink } from '../../files/sinks.ts';
import type { Job } from '../../job/job.ts';
import { framesInSlots, sheetSpecOf } from '../../job/selectors.ts';
import { weaveSheet as weaveInto } from '../../jobs/weave.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import type { WeaveState } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import { untilPrepared } from './keep-prepared.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';

const setWeave = (weave: WeaveState) => workStore.getState().set({ weave });

let halt: AbortController | undefined;

export const stopWeave = (): void => halt?.abort();

/** Weaves the sheet and tells workStore how it goes. Does nothing while one is being woven. */
export const weaveSheet = async (): Promise<void> => {
  if (halt !== undefined) return;
  const { job } = documentStore.getState();
  const own = new AbortController();
  halt = own;
  try {
    await weaveJob(job, own.signal);
  } catch (error) {
    setWeave({ stage: 'failed', message: toWorkError(error).message });
  } finally {
    halt = undefined;
  }
};

const weaveJob = async (job: Job, signal: AbortSignal): Promise<void> => {
  const { saveTo, fileType } = viewStore.getState();
  const fileName = sheetFileName(job, fileType);
  const toChosenFile = saveTo === 'chosen-file';
  // The dialog must open from the person's own click, before anything else is waited for.
  const chosen = toChosenFile ? await openChosenSink(fileName, fileType) : undefined;
  if (toChosenFile && chosen === undefined) return;
  const sheet = sheetSpecOf(job);
  const startedAt = performance.now();
  letGoOfLastSheet();
  setWeave({
    stage: 'weaving',
    rowsDone: 0,
    rows: sheet.heightDots,
    secondsLeft: undefined,
  });
  const stack = await untilPrepared(job, signal).catch(async (error: unknown) => {
    await chosen?.abort();
    throw error;
  });
  if (stack === undefined) {
    await chosen?.abort();
    if (signal.aborted) return setWeave({ stage: 'stopped' });
    throw new Error(`The sheet cannot be woven: ${[...faults()].join(' ')}`);
  }
  const kept = chosen === undefined ? await openKeptSink(fileName, fileType) : undefined;
  const outcome = await weaveInto(
    { sheet, stack, fileType, info: sheetInfo(job, new Date()) },
    (chosen ?? kept) as Sink | KeptSink,
    { signal, report: progressReporter(sheet.heightDots) },
  );
  if (!outcome.done) return setWeave({ stage: 'stopped' });
  if (kept !== undefined) finished.push(kept);
  setWeave({
    stage: 'woven',
    fileName,
    byteLength: outcome.value.byteLength,
    seconds: (performance.now() - startedAt) / 1000,
    href: kept === undefined ? undefined : URL.createObjectURL(await kept.file()),
    stale: wovenFrom(documentStore.getState().job) !== wovenFrom(job),
  });
  watchForChange(job);
};

const faults = () => workStore.getState().prepareFaults.values();

const REPORT_EVERY_MS = 500;
/** The first rows include warming up; a guess from them would only have to be taken back. */
const GUESS_AFTER_MS = 700;

const progressReporter = (rows: number) => {
  const startedAt = performance.now();
  let reportedAt = 0;
  return (rowsDone: number) => {
    const now = performance.now();
    if (now - reportedAt < REPORT_EVERY_MS && rowsDone < rows) return;
    reportedAt = now;
    const elapsed = now - startedAt;
    const secondsLeft =
      elapsed < GUESS_AFTER_MS ? undefined : ((elapsed / rowsDone) * (rows - rowsDone)) / 1000;
    setWeave({ stage: 'weaving', rowsDone, rows, secondsLeft });
  };
};

/** Everything a sheet's dots depend on. */
const wovenFrom = (job: Job): string =>
  JSON.stringify([
    sheetSpecOf(job),
    framesInSlots(job).map(({ id }) => id),
    job.placement,
    job.exposureStops,
  ]);

let unwatch: (() => void) | undefined;

const watchForChange = (job: Job) => {
  const woven = wovenFrom(job);
  unwatch?.();
  unwatch = documentStore.subscribe(({ job: now }) => {
    const { weave } = workStore.getState();
    if (weave.stage !== 'woven') return;
    const stale = wovenFrom(now) !== woven;
    if (stale !== weave.stale) setWeave({ ...weave, stale });
  });
};

/** Finished sheets still on the private disk, oldest first. */
const finished: KeptSink[] = [];

/** The last one stays where it is until the next is done: it may be on its way into a download. */
const letGoOfLastSheet = () => {
  const { weave } = workStore.getState();
  if (weave.stage === 'woven' && weave.href !== undefined) URL.revokeObjectURL(weave.href);
  for (const sheet of finished.splice(0, finished.length - 1))
    sheet.discard().catch(() => undefined);
};
