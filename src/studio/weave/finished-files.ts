/**
 * Woven files, whole or begun, that are kept on the private disk. Each belongs to the job that it was woven from, and
 * is found again when that job is opened.
 */
import type { KeptRun } from '../../files/kept-runs.ts';
import type { FileKind } from '../../state/tasks.ts';
import type { Floor } from '../floor.ts';
import type { Finished, Left } from './left.ts';

/** Loaded when something is woven or found: a first view does without. */
const leftModule = () => import('./left.ts');

const revoke = ({ files }: Left): void => {
  for (const { href } of files) if (href !== undefined) URL.revokeObjectURL(href);
};
const discard = (one: Finished): void => {
  revoke(one);
  one.run.discard().catch(() => undefined);
};

/**
 * With a weave in the place of the one before, whose files stay on the disk because they may still be downloading.
 * Older ones, and one of which nothing is kept, are removed.
 */
const withNew = (all: readonly Finished[], one: Finished): readonly Finished[] => {
  const before = all.filter(({ jobId, kind }) => jobId === one.jobId && kind === one.kind);
  const same = before.find(({ run }) => run === one.run);
  const others = before.filter((each) => each !== same);
  for (const each of [same, others[0]]) if (each !== undefined) revoke(each);
  const older = new Set(others.slice(1));
  for (const each of older) discard(each);
  if (one.share === 0) discard(one);
  const rest = all.filter((each) => each !== same && !older.has(each));
  return one.share === 0 ? rest : [one, ...rest];
};

export const createFinishedFiles = ({ document, work, tasks, disk }: Floor) => {
  /** Newest first. */
  let all: readonly Finished[] = [];

  const forget = (goes: (one: Finished) => boolean): void => {
    for (const one of all.filter(goes)) {
      discard(one);
      // The file is gone from the disk: stop offering it.
      tasks.tell(one.jobId, one.kind, { stage: 'idle' });
    }
    all = all.filter((one) => !goes(one));
  };

  const newestOf = (jobId: string, kind: FileKind): Finished | undefined =>
    all.find((one) => one.jobId === jobId && one.kind === kind);

  const changedNow = async (one: Finished): Promise<readonly string[]> => {
    const { changedSince } = await leftModule();
    return changedSince(one, document.getState().job, work.getState().wholeParallax);
  };
  const tellOf = async (one: Finished, message?: string): Promise<void> => {
    const { stateOf } = await leftModule();
    tasks.tell(one.jobId, one.kind, stateOf(one, await changedNow(one), message));
  };

  /** Marks the open job's files that are out of date. */
  const look = async (): Promise<void> => {
    const { jobId } = document.getState();
    const kinds = new Set(all.filter((one) => one.jobId === jobId).map(({ kind }) => kind));
    for (const kind of kinds) {
      const { restated } = await leftModule();
      const one = newestOf(jobId, kind);
      const changed = one && (await changedNow(one));
      const now = changed && restated(tasks.state(jobId, kind), changed);
      if (now !== undefined) tasks.tell(jobId, kind, now);
    }
  };

  /** Finds what earlier pages left of the open job. Never rejects. */
  const recall = async (): Promise<void> => {
    const { jobId, job } = document.getState();
    const isWanted = (kind: FileKind) =>
      newestOf(jobId, kind) === undefined && !tasks.isRunning(kind);
    const { findLeft } = await leftModule();
    for (const one of await findLeft(await disk.runs(), jobId, job, isWanted)) {
      all = [...all, one];
      await tellOf(one);
    }
  };

  let recalled = Promise.resolve();

  return {
    /** Whether an earlier page left a part of the files with this name: known once they are found. */
    isBegun: async (named: string): Promise<boolean> => {
      await recalled;
      return all.some(({ run, pageWent }) => pageWent && run.record().named === named);
    },

    /** The last weave of a kind, if anything of it is kept. */
    lastRun: (jobId: string, kind: FileKind): KeptRun | undefined => newestOf(jobId, kind)?.run,

    /**
     * Offers what a weave left, in the place of the one before. @param message why it failed; left out: it was not
     * @returns whether all its files are whole
     */
    keep: async (
      jobId: string,
      kind: FileKind,
      run: KeptRun,
      message?: string,
    ): Promise<boolean> => {
      const { isWhole, whatIsLeft } = await leftModule();
      const one = { jobId, kind, run, ...(await whatIsLeft(run)), pageWent: false };
      all = withNew(all, one);
      await tellOf(one, message);
      return isWhole(one);
    },

    forgetAll: (): void => forget(() => true),
    forgetJob: (jobId: string): void => forget((one) => one.jobId === jobId),

    /** Finds files again as their job is opened, and marks those that get out of date. @returns what ends that */
    start: (): (() => void) => {
      recalled = recall();
      const endings = [
        document.subscribe((now, before) => {
          if (now.jobId !== before.jobId) void recall();
          if (now.job !== before.job || now.jobId !== before.jobId) void look();
        }),
        work.subscribe((now, before) => {
          if (now.wholeParallax !== before.wholeParallax) void look();
        }),
      ];
      return () => {
        for (const end of endings) end();
      };
    },
  };
};
