/** Weaving the gang of the job as it stands: from the button to the finished file. */
import type { Outcome } from '../../contract/errors.ts';
import { StudioError, stopped } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { FrameStack } from '../../contract/weave.ts';
import type { GangSpec } from '../../core/sheet/gang/gang-spec.ts';
import type { GangView } from '../../job/facts/gang.ts';
import { gangToWeave, gangViewOf, membersLaid } from '../../job/facts/gang.ts';
import type { Job } from '../../job/schema/job.ts';
import type { BindCall } from '../../calls/bind.ts';
import { weaveGang as weaveInto } from '../../calls/weave.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import type { WeaveState } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import type { FileToWrite } from './weave-file.ts';
import { createFileRun } from './weave-file.ts';
import type { PreparedJob } from '../prepare/prepare-job.ts';
import { prepareJob } from '../prepare/prepare-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import { wovenFrom } from './woven-from.ts';

type Guests = ReadonlyMap<string, Job>;

const setGang = (gang: WeaveState) => workStore.getState().set({ gang });

const run = createFileRun({ get: () => workStore.getState().gang, set: setGang });

export const stopGang = (): void => run.stop();

/** Weaves the gang and tells workStore how it goes. Does nothing while one is being woven. */
export const weaveGang = (guests: Guests): Promise<void> =>
  run.start(() => fileOf(documentStore.getState().job, guests));

const fileOf = (job: Job, guests: Guests): FileToWrite => {
  const { fileType } = viewStore.getState();
  const view = gangViewOf(job, guests);
  // With today's date, where the person is: Sweden writes dates as ISO 8601 does.
  const gang = gangToWeave(job, view, new Date().toLocaleDateString('sv-SE'));
  const key = keyOf(job, guests);
  const count = view.best.places.length;
  const named = { ...job, name: `${job.name}, ${count} on a lens` };
  return {
    fileName: sheetFileName(named, fileType),
    fileType,
    rows: gang.page.heightDots,
    write: (sink, call) => write(named, view, gang, fileType, sink, call),
    isStale: () => keyOf(documentStore.getState().job, guests) !== key,
    onWhole: () => watchForChange(key, guests),
  };
};

/** Everything a gang's dots depend on. */
const keyOf = (job: Job, guests: Guests): string =>
  JSON.stringify([
    job.name,
    job.gang ?? null,
    job.page?.on === true ? job.page : null,
    gangViewOf(job, guests).members.map((member) => [member.id, wovenFrom(member.job)]),
  ]);

const write = async (
  job: Job,
  view: GangView,
  gang: GangSpec,
  fileType: FileToWrite['fileType'],
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const prepared: PreparedJob[] = [];
  try {
    const stacks = await prepareAll(view, call.signal, prepared).catch(async (error: unknown) => {
      await sink.abort();
      throw error;
    });
    if (stacks === undefined) {
      await sink.abort();
      return stopped;
    }
    const info = sheetInfo(job, new Date(), gang.page);
    return await weaveInto({ gang, stacks, fileType, info }, sink, call);
  } finally {
    for (const one of prepared) one.letGo();
  }
};

/** One job after the other, so that no more frames are decoded at once than for one sheet. */
const prepareAll = async (
  view: GangView,
  signal: AbortSignal,
  prepared: PreparedJob[],
): Promise<FrameStack[] | undefined> => {
  const laid = membersLaid(view);
  if (laid.length === 0)
    throw new StudioError('internal', 'Not one print finds room on this lens sheet.');
  for (const { job } of laid)
    if (job.frames.length === 0)
      throw new StudioError('internal', `“${job.name}” has no frames yet: add them, then weave.`);
  for (const { job } of laid) {
    const outcome = await prepareJob(job, signal);
    if (!outcome.done) return undefined;
    prepared.push(outcome.value);
  }
  return prepared.map(({ stack }) => stack);
};

let unwatch: (() => void) | undefined;

const watchForChange = (key: string, guests: Guests) => {
  unwatch?.();
  const look = () => {
    const { gang } = workStore.getState();
    if (gang.stage !== 'woven') return;
    const stale = keyOf(documentStore.getState().job, guests) !== key;
    if (stale !== gang.stale) setGang({ ...gang, stale });
  };
  unwatch = documentStore.subscribe(look);
};
