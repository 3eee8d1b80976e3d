/**
 * One file woven at the person's wish, a sheet or a strip: where it goes, how it is told, how it is
 * stopped, and what becomes of the one before. What is written is the bench's own.
 */
import type { Outcome } from '../../contract/errors.ts';
import { toWorkError } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import type { KeptSink } from '../../files/sinks.ts';
import { openChosenSink, openKeptSink } from '../../files/sinks.ts';
import { viewStore } from '../../state/view.ts';
import type { WeaveState } from '../../state/work.ts';
import { whileWeaving } from './weaving.ts';
import { tellIfNoRoom } from '../keep/no-room.ts';

export interface FileToWrite {
  readonly fileName: string;
  readonly fileType: SheetFileType;
  readonly rows: number;
  /** Writes into the sink and closes it, or aborts it: when stopped, and before it throws. */
  readonly write: (
    sink: Sink,
    call: { readonly signal: AbortSignal; readonly report: (rowsDone: number) => void },
  ) => Promise<Outcome<{ byteLength: number }>>;
  /** Asked when the file is whole: whether it is out of date by then. */
  readonly isStale: () => boolean;
  /** Told when the file is whole, before the state says so. */
  readonly onWhole?: () => void;
}

export interface FileRun {
  /** Does nothing while a file is being written. `file` is asked for once, and may throw. */
  start(file: () => FileToWrite): Promise<void>;
  stop(): void;
}

/** Where the bench keeps how its file goes. */
export interface RunState {
  get(): WeaveState;
  set(state: WeaveState): void;
}

export const createFileRun = (state: RunState): FileRun => {
  let halt: AbortController | undefined;
  /** Finished files still on the private disk, oldest first. */
  const finished: KeptSink[] = [];

  /** The last one stays where it is until the next is done: it may be on its way into a download. */
  const letGoOfLast = () => {
    const last = state.get();
    if (last.stage === 'woven' && last.href !== undefined) URL.revokeObjectURL(last.href);
    for (const sink of finished.splice(0, finished.length - 1))
      sink.discard().catch(() => undefined);
  };

  const run = async (file: FileToWrite, signal: AbortSignal): Promise<void> => {
    const { fileName, fileType, rows } = file;
    const toChosenFile = viewStore.getState().saveTo === 'chosen-file';
    // The dialog must open from the person's own click, before anything else is waited for.
    const chosen = toChosenFile ? await openChosenSink(fileName, fileType) : undefined;
    if (toChosenFile && chosen === undefined) return;
    const startedAt = performance.now();
    letGoOfLast();
    state.set({ stage: 'weaving', rowsDone: 0, rows, secondsLeft: undefined });
    const kept = chosen === undefined ? await openKeptSink(fileName, fileType) : undefined;
    const outcome = await file.write((chosen ?? kept) as Sink, {
      signal,
      report: progressReporter(rows, (progress) => state.set(progress)),
    });
    if (!outcome.done) return state.set({ stage: 'stopped' });
    if (kept !== undefined) finished.push(kept);
    file.onWhole?.();
    state.set({
      stage: 'woven',
      fileName,
      byteLength: outcome.value.byteLength,
      seconds: (performance.now() - startedAt) / 1000,
      href: kept === undefined ? undefined : URL.createObjectURL(await kept.file()),
      stale: file.isStale(),
    });
  };

  return {
    async start(file) {
      if (halt !== undefined) return;
      const own = new AbortController();
      halt = own;
      try {
        const wanted = file();
        await whileWeaving(wanted.fileName, () => run(wanted, own.signal));
      } catch (error) {
        const { message, file: name = 'the sheet' } = toWorkError(error);
        tellIfNoRoom(error, name);
        state.set({ stage: 'failed', message });
      } finally {
        halt = undefined;
      }
    },
    stop: () => halt?.abort(),
  };
};

const REPORT_EVERY_MS = 500;
/** The first rows include warming up; a guess from them would only have to be taken back. */
const GUESS_AFTER_MS = 700;

/** Tells now and then how many of the rows are done, and how long the rest will take. */
export const progressReporter = (
  rows: number,
  tell: (progress: Extract<WeaveState, { stage: 'weaving' }>) => void,
) => {
  let first: { readonly at: number; readonly rowsDone: number } | undefined;
  let reportedAt = 0;
  return (rowsDone: number) => {
    const now = performance.now();
    // What went before the first band, such as preparing frames, says nothing of the bands to come.
    first ??= { at: now, rowsDone };
    if (now - reportedAt < REPORT_EVERY_MS && rowsDone < rows) return;
    reportedAt = now;
    const elapsed = now - first.at;
    const perRow = elapsed / (rowsDone - first.rowsDone);
    const secondsLeft = elapsed < GUESS_AFTER_MS ? undefined : (perRow * (rows - rowsDone)) / 1000;
    tell({ stage: 'weaving', rowsDone, rows, secondsLeft });
  };
};
