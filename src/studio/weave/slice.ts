/** Weaving a slice of the print as the job stands: from the button to the finished file. */
import type { Outcome } from '../../contract/errors.ts';
import { stopped } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { Job } from '../../job/schema/job.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { sliceOf } from '../../job/facts/slice.ts';
import type { BindCall } from '../../calls/bind.ts';
import { weaveSheet } from '../../calls/weave.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import { workStore } from '../../state/work.ts';
import type { FileToWrite } from './weave-file.ts';
import { createFileRun } from './weave-file.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import { sayPrepareFaults, untilPrepared } from '../prepare/until-prepared.ts';

const run = createFileRun({
  get: () => workStore.getState().slice,
  set: (slice) => workStore.getState().set({ slice }),
});

export const stopSlice = (): void => run.stop();

export const weaveSlice = (): Promise<void> =>
  run.start(() => fileOf(documentStore.getState().job));

const fileOf = (job: Job): FileToWrite => {
  const { fileType } = viewStore.getState();
  return {
    fileName: sheetFileName({ ...job, name: `Slice of ${job.name}` }, fileType),
    fileType,
    rows: sliceOf(job).heightDots,
    write: (sink, call) => write(job, fileType, sink, call),
    isStale: () => documentStore.getState().job !== job,
  };
};

const write = async (
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
    throw new Error(`The slice cannot be woven: ${sayPrepareFaults()}`);
  }
  const page = sliceOf(job);
  // What reaches beyond the slice is no bleed of it.
  const { trim: _trim, bleed: _bleed, ...info } = sheetInfo(job, new Date(), page);
  return weaveSheet({ sheet: sheetSpecOf(job), stack, page, fileType, info }, sink, call);
};
