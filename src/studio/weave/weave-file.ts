/**
 * The one way from frames to files: their place, progress, stop and outcome, and going on where a weave broke off. Each
 * kind of file brings its own writing.
 */
import type { BindCall } from '../../calls/bind.ts';
import type { Outcome } from '../../contract/errors.ts';
import { messageOf } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { SheetInfo } from '../../core/encode/row-writer.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { KeptRun, RunRecord } from '../../files/kept-runs.ts';
import type { JobEdit } from '../../job/edits/edit.ts';
import type { Job } from '../../job/schema/job.ts';
import type { DocumentState } from '../../state/document.ts';
import type { FileKind, FileState } from '../../state/tasks.ts';
import type { Studio } from '../studio.ts';
import type { Asked, Terms } from './go-on.ts';
import { dependsOnNow, filesToWrite, refuseChanged, termsOf } from './go-on.ts';
import { ownerOf } from './left.ts';
import { createProgress } from './progress.ts';
import type { Place, PlaceKind } from './where.ts';
import { askWhere, besideKept } from './where.ts';
import { withWoven } from './woven-marks.ts';
import type { Parts } from './woven-from.ts';

export interface FileToWrite<Frames> {
  /** For the person where there are several: "row 1, tile 2". */
  readonly name: string;
  readonly fileName: string;
  readonly info: SheetInfo;
  /** Writes into the sink and closes it, or aborts it: when stopped, and before it throws. */
  readonly write: (
    frames: Frames,
    sink: Sink,
    call: BindCall,
  ) => Promise<Outcome<{ byteLength: number }>>;
}

/** Files that are woven together, from the job as it was when they were asked for. */
export interface FileSet<Frames> {
  /** Its name in a sentence. */
  readonly named: string;
  readonly to: PlaceKind;
  /** Prepares what all files are woven from; undefined when stopped. */
  readonly prepare: (signal: AbortSignal) => Promise<Frames | undefined>;
  /** Removes what was prepared for these files only. */
  readonly letGo?: () => void;
  readonly files: readonly FileToWrite<Frames>[];
  /** What the dots depend on beside `partsOf` this kind. */
  readonly dependsOn?: Parts;
  /** What the job notes once all files are written. */
  readonly onWhole?: JobEdit;
}

type Begun = Pick<DocumentState, 'jobId' | 'job'>;

/** One weave, from the press to its outcome. */
interface Weave<Frames> {
  readonly kind: FileKind;
  readonly begun: Begun;
  readonly set: FileSet<Frames>;
  readonly run: KeptRun;
  readonly place: Place;
  /** The files to write, in order, each with its place among all. */
  readonly todo: readonly (FileToWrite<Frames> & { readonly index: number })[];
  readonly signal: AbortSignal;
}

/** Where the file goes; without a private disk a chosen file is not held in memory too. */
const sinkFor = async (
  { run, place }: Pick<Weave<never>, 'run' | 'place'>,
  index: number,
  fileName: string,
): Promise<Sink> => {
  const kept = await run.open(index);
  if (place.chosen === undefined) return kept;
  const chosen = await place.chosen(fileName);
  return run.lasting ? besideKept(chosen, kept) : chosen;
};

/** Writes one file. @returns false when stopped */
const writeOne = async <Frames>(
  weave: Weave<Frames>,
  { index, fileName, write }: Weave<Frames>['todo'][number],
  frames: Frames,
  call: BindCall,
): Promise<boolean> => {
  const { run, place } = weave;
  const outcome = await write(frames, await sinkFor(weave, index, fileName), call);
  if (!outcome.done) return false;
  if (place.chosen === undefined) return true;
  const { byteLength } = outcome.value;
  const others = run.record().given.filter((one) => one.index !== index);
  await run.update({ given: [...others, { index, byteLength }] });
  await run.drop(index);
  return true;
};

/** Writes the files in order, until it is stopped, and reports the progress. */
const writeAll = async <Frames>(
  weave: Weave<Frames>,
  tell: (state: FileState) => void,
): Promise<void> => {
  const { set, todo, signal } = weave;
  const count = set.files.length;
  const rows = todo.reduce((sum, { info }) => sum + info.height, 0);
  let place = count - todo.length;
  const progress = createProgress(rows, (far) => tell({ stage: 'weaving', place, count, ...far }));
  const frames = await set.prepare(signal);
  if (frames === undefined) return;
  let before = 0;
  for (const file of todo) {
    const report = (rowsDone: number) => progress(before + rowsDone);
    if (!(await writeOne(weave, file, frames, { signal, report }))) return;
    before += file.info.height;
    place += 1;
  }
};

/** Notes the finished files in the job, which is still open: no other can be opened during a weave. */
const keepInJob = (
  { change, tell }: Studio,
  { named, onWhole }: Pick<FileSet<never>, 'named' | 'onWhole'>,
): void => {
  const refused = onWhole === undefined ? undefined : change(...onWhole);
  if (refused !== undefined)
    tell(
      `“${nameInText(named)}” is whole, but the job could not note that it was woven. ${refused}`,
    );
};

const failed = (message: string): FileState => ({
  stage: 'failed',
  files: [],
  count: 0,
  seconds: 0,
  stale: false,
  message,
});

const runWeave = async <Frames>(studio: Studio, weave: Weave<Frames>): Promise<void> => {
  const { tasks, finished, room } = studio;
  const { kind, begun, set, run } = weave;
  const { jobId, job } = begun;
  const before = run.record().seconds;
  const startedAt = performance.now();
  let message: string | undefined;
  try {
    await writeAll(weave, (state) => tasks.tell(jobId, kind, state));
  } catch (error) {
    room.tellIfNone(error, set.named);
    message = messageOf(error);
  } finally {
    set.letGo?.();
  }
  const seconds = before + (performance.now() - startedAt) / 1000;
  // The time matters little beside what became of the files.
  await run.update({ seconds }).catch(() => undefined);
  // One tile that is woven alone is no whole weave.
  if (!(await finished.keep(jobId, kind, run, message))) return;
  keepInJob(studio, set);
  const { wovenMarks, set: setView } = studio.view.getState();
  setView({ wovenMarks: withWoven(wovenMarks, jobId, kind, job) });
};

/** Tells that it is under way before the disk is asked for anything: it may be slow. */
const tellBegun = (
  { tasks }: Studio,
  kind: FileKind,
  jobId: string,
  files: readonly Pick<FileToWrite<never>, 'info'>[],
): void => {
  const rows = files.reduce((sum, { info }) => sum + info.height, 0);
  const far = { rowsDone: 0, rows, secondsLeft: undefined };
  tasks.tell(jobId, kind, { stage: 'weaving', place: 0, count: files.length, ...far });
};

/** Without room on the private disk a file that goes elsewhere is woven all the same. */
const beginRun = async (
  { disk }: Studio,
  record: RunRecord,
  { chosen }: Place,
): Promise<KeptRun> => {
  const runs = await disk.runs();
  const onDisk = runs.begin(record, 'disk');
  return chosen === undefined ? onDisk : onDisk.catch(() => runs.begin(record, 'memory'));
};

type Ready<Frames> = Pick<Weave<Frames>, 'kind' | 'begun' | 'set' | 'signal'> & {
  readonly terms: Terms;
  readonly last: KeptRun | undefined;
};

const weaveSet = async <Frames>(
  studio: Studio,
  { terms, last, ...weave }: Ready<Frames>,
  asked: Asked,
): Promise<void> => {
  const { kind, begun, set } = weave;
  const { fileType, units, at } = terms;
  const { jobId, job } = begun;
  const place = await askWhere({ ...set, fileType });
  if (place === undefined) return;
  tellBegun(studio, kind, jobId, set.files);
  const dependsOn = dependsOnNow(studio, kind, job, set.dependsOn);
  if (last !== undefined) refuseChanged(last.record(), dependsOn, asked);
  const record: RunRecord = {
    owner: ownerOf(jobId, job),
    kind,
    startedAt: at.toISOString(),
    units,
    named: set.named,
    fileType,
    dependsOn,
    files: set.files.map(({ name, fileName, info }) => ({ name, fileName, rows: info.height })),
    given: [],
    seconds: 0,
  };
  const run = last ?? (await beginRun(studio, record, place));
  const places = await filesToWrite(run, asked);
  const todo = set.files
    .map((file, index) => ({ ...file, index }))
    .filter(({ index }) => places.includes(index));
  await runWeave(studio, { ...weave, run, place, todo });
};

/**
 * Weaves files of the open job and reports to the registry. Does nothing while files of this kind are being woven.
 * Never rejects. @param makeSet may throw with a sentence for the person
 */
export const weaveFiles = async <Frames>(
  studio: Studio,
  kind: FileKind,
  makeSet: (job: Job, terms: Terms) => FileSet<Frames>,
  asked: Asked = {},
): Promise<void> => {
  const { tasks, document, finished } = studio;
  if (tasks.isRunning(kind)) return;
  const begun = document.getState();
  const { job, jobId } = begun;
  const last = asked.go === undefined ? undefined : finished.lastRun(jobId, kind);
  try {
    const terms = termsOf(studio, last?.record());
    const set = makeSet(job, terms);
    await tasks.run({ kind, jobId, writes: set.named, demo: job.demo }, (signal) =>
      weaveSet(studio, { kind, begun, set, signal, terms, last }, asked),
    );
  } catch (error) {
    const message = messageOf(error);
    if (last === undefined) return tasks.tell(jobId, kind, failed(message));
    // What is kept is offered as before: once nothing stands in the way it can go on.
    studio.tell(message);
    await finished.keep(jobId, kind, last);
  }
};
