/**
 * The one way from frames to files: their place, progress, stop and outcome. Each kind of file brings its own
 * writing.
 */
import type { BindCall } from '../../calls/bind.ts';
import type { Outcome } from '../../contract/errors.ts';
import { messageOf } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { KeptSink } from '../../files/sinks.ts';
import type { JobEdit } from '../../job/edits/edit.ts';
import type { Job } from '../../job/schema/job.ts';
import type { DocumentState } from '../../state/document.ts';
import type { FileKind, FileState, WovenFile } from '../../state/tasks.ts';
import type { Studio } from '../studio.ts';
import { createProgress } from './progress.ts';
import type { Place, PlaceKind } from './where.ts';
import { askWhere } from './where.ts';
import { withWoven } from './woven-marks.ts';

export interface FileToWrite<Frames> {
  /** For the person where there are several: "row 1, tile 2". */
  readonly name: string;
  readonly fileName: string;
  readonly rows: number;
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
  readonly fileType: SheetFileType;
  readonly to: PlaceKind;
  /** Prepares what all files are woven from; undefined when stopped. */
  readonly prepare: (signal: AbortSignal) => Promise<Frames | undefined>;
  /** Removes what was prepared for these files only. */
  readonly letGo?: () => void;
  readonly files: readonly FileToWrite<Frames>[];
  /** Whether the files are out of date. Left out: they never are. */
  readonly isStale?: (job: Job) => boolean;
  /** What the job notes once all files are written. */
  readonly onWhole?: JobEdit;
}

interface Written {
  readonly file: WovenFile;
  readonly sink: KeptSink | undefined;
}

/** Undefined when stopped. */
const writeOne = async <Frames>(
  { name, fileName, write }: FileToWrite<Frames>,
  frames: Frames,
  place: Place,
  call: BindCall,
): Promise<Written | undefined> => {
  const { sink, kept } = await place(fileName);
  const outcome = await write(frames, sink, call);
  if (!outcome.done) return undefined;
  const href = kept === undefined ? undefined : URL.createObjectURL(await kept.file());
  return { file: { name, fileName, byteLength: outcome.value.byteLength, href }, sink: kept };
};

/** Writes the files in order and reports the progress. @param written gets the finished files */
const writeAll = async <Frames>(
  { files, prepare }: FileSet<Frames>,
  place: Place,
  tell: (state: FileState) => void,
  signal: AbortSignal,
  written: Written[],
): Promise<void> => {
  const count = files.length;
  const rows = files.reduce((sum, file) => sum + file.rows, 0);
  const progress = createProgress(rows, (far) =>
    tell({ stage: 'weaving', place: written.length, count, ...far }),
  );
  tell({ stage: 'weaving', place: 0, count, rowsDone: 0, rows, secondsLeft: undefined });
  const frames = await prepare(signal);
  if (frames === undefined) return;
  let before = 0;
  for (const file of files) {
    const report = (rowsDone: number) => progress(before + rowsDone);
    const one = await writeOne(file, frames, place, { signal, report });
    if (one === undefined) return;
    written.push(one);
    before += file.rows;
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

const failed = (message: string, files: readonly WovenFile[] = [], count = 0): FileState => ({
  stage: 'failed',
  files,
  count,
  seconds: 0,
  stale: false,
  message,
});

const run = async <Frames>(
  studio: Studio,
  kind: FileKind,
  { jobId, job }: Pick<DocumentState, 'jobId' | 'job'>,
  set: FileSet<Frames>,
  signal: AbortSignal,
): Promise<void> => {
  const { tasks, finished, document, room } = studio;
  const place = await askWhere(set);
  if (place === undefined) return;
  const tell = (state: FileState) => tasks.tell(jobId, kind, state);
  const startedAt = performance.now();
  const written: Written[] = [];
  const count = set.files.length;
  let ended: FileState | undefined;
  try {
    await writeAll(set, place, tell, signal, written);
  } catch (error) {
    room.tellIfNone(error, set.named);
    ended = failed(
      messageOf(error),
      written.map(({ file }) => file),
      count,
    );
  } finally {
    set.letGo?.();
  }
  finished.keep(jobId, kind, {
    sinks: written.flatMap(({ sink }) => sink ?? []),
    links: written.flatMap(({ file }) => file.href ?? []),
    isStale: set.isStale,
  });
  if (written.length === count) {
    keepInJob(studio, set);
    const { wovenMarks, set: setView } = studio.view.getState();
    setView({ wovenMarks: withWoven(wovenMarks, jobId, kind, job) });
  }
  tell(
    ended ?? {
      stage: written.length === count ? 'woven' : 'stopped',
      files: written.map(({ file }) => file),
      count,
      seconds: (performance.now() - startedAt) / 1000,
      stale: set.isStale?.(document.getState().job) ?? false,
    },
  );
};

/**
 * Weaves files of the open job and reports to the registry. Does nothing while files of this kind are being woven.
 * Never rejects. @param makeSet may throw with a sentence for the person
 */
export const weaveFiles = async <Frames>(
  studio: Studio,
  kind: FileKind,
  makeSet: (job: Job) => FileSet<Frames>,
): Promise<void> => {
  const { tasks, document } = studio;
  if (tasks.isRunning(kind)) return;
  const begun = document.getState();
  const { job, jobId } = begun;
  try {
    const set = makeSet(job);
    await tasks.run({ kind, jobId, writes: set.named, demo: job.demo }, (signal) =>
      run(studio, kind, begun, set, signal),
    );
  } catch (error) {
    tasks.tell(jobId, kind, failed(messageOf(error)));
  }
};
