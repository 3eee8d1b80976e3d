/**
 * The one registry of work under way. Opening another job, freeing disk space, leaving the page and updating
 * ask here whether anything is being written.
 */
import type { StoreApi } from 'zustand/vanilla';
import { createStore } from 'zustand/vanilla';
import type { FileKind, Task, TaskStates, TasksState } from '../state/tasks.ts';
import { isWriting, stateIn } from '../state/tasks.ts';
import type { AskBeforeLeaving } from './ask-before-leaving.ts';
import {
  brokenOffFile,
  createWritingMark,
  nothing,
  shareWritingLock,
  unlessAnyTabWrites,
} from './writing-lock.ts';

/** While weaving, the browser asks before the page is left; if it closes anyway, the file is remembered. */
const rememberWhileWriting = (
  store: StoreApi<TasksState>,
  askBeforeLeaving: AskBeforeLeaving,
): void => {
  const mark = createWritingMark();
  /** The file that is marked, as text. A mark stays while other work comes and goes: a copy of the tab knows it by its id. */
  let marked: string | undefined;
  store.subscribe(({ running }, before) => {
    if (running === before.running) return;
    const writes = running.flatMap(({ writes: fileName, jobId, demo }) =>
      fileName === undefined ? [] : [{ fileName, jobId, demo }],
    );
    askBeforeLeaving('weaving', writes.length > 0);
    const file = JSON.stringify(writes.at(-1));
    if (file === marked) return;
    marked = file;
    mark.set(writes.at(-1));
  });
};

export const createTasks = (askBeforeLeaving: AskBeforeLeaving) => {
  const store = createStore<TasksState>()(() => ({ running: [], byJob: new Map(), shown: [] }));
  const { getState, setState } = store;
  /** Asked for, and waiting for the lock. */
  const waiting = new Set<Task['kind']>();

  const begin = (task: Task): void => setState({ running: [...getState().running, task] });
  const end = (task: Task): void =>
    setState({ running: getState().running.filter((one) => one !== task) });

  rememberWhileWriting(store, askBeforeLeaving);

  return {
    store,

    /** Under way, or about to be. */
    isRunning: (kind: Task['kind']): boolean =>
      waiting.has(kind) || getState().running.some((task) => task.kind === kind),

    /** Whether anything is being written to a file in this tab. */
    isWriting: (): boolean => isWriting(getState()),

    state: <Kind extends keyof TaskStates>(jobId: string, kind: Kind): TaskStates[Kind] =>
      stateIn(getState(), jobId, kind),

    tell: <Kind extends keyof TaskStates>(
      jobId: string,
      kind: Kind,
      state: TaskStates[Kind],
    ): void => {
      const byJob = new Map(getState().byJob);
      byJob.set(jobId, { ...byJob.get(jobId), [kind]: state });
      setState({ byJob });
    },

    /** The part of a bench that makes this file is on the screen, until the function that comes back is called. */
    show: (kind: FileKind): (() => void) => {
      setState({ shown: [...getState().shown, kind] });
      return () => setState({ shown: getState().shown.filter((one) => one !== kind) });
    },

    /** Stops the work of a kind, whichever job it belongs to. */
    stop: (kind: Task['kind']): void => {
      for (const task of getState().running) if (task.kind === kind) task.cancel();
    },

    /**
     * Runs a task that can be stopped. A task that writes a file does not begin while the tabs update to a
     * newer version: the page reloads first.
     */
    run: async <T>(
      {
        kind,
        jobId,
        writes,
        demo,
      }: Pick<Task, 'kind' | 'jobId'> & Partial<Pick<Task, 'writes' | 'demo'>>,
      work: (signal: AbortSignal) => Promise<T>,
    ): Promise<T> => {
      const halt = new AbortController();
      const task: Task = { kind, jobId, writes, demo, cancel: () => halt.abort() };
      waiting.add(kind);
      const letGo = writes === undefined ? nothing : await shareWritingLock();
      waiting.delete(kind);
      begin(task);
      try {
        return await work(halt.signal);
      } finally {
        letGo();
        end(task);
      }
    },

    /**
     * Runs this if no tab is writing a file; else returns false. No tab can begin to write until it ends.
     */
    unlessWriting: async (work: () => Promise<void>): Promise<boolean> => {
      if (isWriting(getState())) return false;
      return unlessAnyTabWrites(work);
    },

    brokenOff: brokenOffFile,

    /**
     * Checks that no task is under way that would continue into another job or lose the files that it reads.
     * @throws an Error that says what to wait for
     */
    nothingUnderWay: (): void => {
      const { running } = getState();
      if (running.some(({ kind }) => kind === 'arrivals'))
        throw new Error(
          'Frames are still being added to the open job. Wait for them or stop them.',
        );
      if (isWriting(getState()))
        throw new Error('The open job is being woven. Wait until it is done, or stop it.');
    },
  };
};

export type Tasks = ReturnType<typeof createTasks>;
