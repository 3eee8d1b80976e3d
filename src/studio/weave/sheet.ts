/** Weaving the sheet of the job as it stands: from the button to the finished file. */
import type { Outcome } from '../../contract/errors.ts';
import { stopped } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { Job } from '../../job/schema/job.ts';
import type { PageSpec } from '../../core/sheet/page-spec.ts';
import { pageToWeave } from '../../job/facts/page.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { BindCall } from '../../calls/bind.ts';
import { weaveSheet as weaveInto } from '../../calls/weave.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import type { WeaveState } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import type { FileToWrite } from './weave-file.ts';
import { createFileRun } from './weave-file.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import { sayPrepareFaults, untilPrepared } from '../prepare/until-prepared.ts';
import { wovenFrom } from './woven-from.ts';

const setWeave = (weave: WeaveState) => workStore.getState().set({ weave });

const run = createFileRun({ get: () => workStore.getState().weave, set: setWeave });

export const stopWeave = (): void => run.stop();

/** Weaves the sheet and tells workStore how it goes. Does nothing while one is being woven. */
export const weaveSheet = (): Promise<void> =>
  run.start(() => sheetOf(documentStore.getState().job));

const sheetOf = (job: Job): FileToWrite => {
  const { fileType } = viewStore.getState();
  const woven = wovenFrom(job);
  return {
    fileName: sheetFileName(job, fileType),
    fileType,
    rows: (pageNow(job) ?? sheetSpecOf(job)).heightDots,
    write: (sink, call) => writeSheet(job, fileType, sink, call),
    isStale: () => wovenFrom(documentStore.getState().job) !== woven,
    onWhole: () => watchForChange(woven),
  };
};

/** With today's date on its label, where the person is: Sweden writes dates as ISO 8601 does. */
const pageNow = (job: Job): PageSpec | undefined =>
  pageToWeave(job, viewStore.getState().units, new Date().toLocaleDateString('sv-SE'));

const writeSheet = async (
  job: Job,
  fileType: FileToWrite['fileType'],
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const stack = await untilPrepared(job, call.signal).catch(async (error: unknown) => {
    await sink.abort();
    throw error;
  });
  if (stack === undefined) {
    await sink.abort();
    if (call.signal.aborted) return stopped;
    throw new Error(`The sheet cannot be woven: ${sayPrepareFaults()}`);
  }
  const page = pageNow(job);
  const request = {
    sheet: sheetSpecOf(job),
    stack,
    fileType,
    info: sheetInfo(job, new Date(), page),
    ...(page === undefined ? {} : { page }),
  };
  return weaveInto(request, sink, call);
};

let unwatch: (() => void) | undefined;

const watchForChange = (woven: string) => {
  unwatch?.();
  const look = () => {
    const { weave } = workStore.getState();
    if (weave.stage !== 'woven') return;
    const stale = wovenFrom(documentStore.getState().job) !== woven;
    if (stale !== weave.stale) setWeave({ ...weave, stale });
  };
  const endings = [
    documentStore.subscribe(look),
    workStore.subscribe((now, before) => {
      if (now.wholeParallax !== before.wholeParallax) look();
    }),
  ];
  unwatch = () => {
    for (const end of endings) end();
  };
};
