/** Woven files that can still be saved while the page is open. Each belongs to the job that it was woven from. */
import type { KeptSink } from '../../files/sinks.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileKind } from '../../state/tasks.ts';
import type { Floor } from '../floor.ts';

interface Finished {
  readonly jobId: string;
  readonly kind: FileKind;
  readonly sinks: readonly KeptSink[];
  /** Object addresses of the files. */
  readonly links: readonly string[];
  readonly isStale: ((job: Job) => boolean) | undefined;
}

export const createFinishedFiles = ({ document, work, tasks }: Floor) => {
  /** Newest first. */
  let all: readonly Finished[] = [];

  const discard = ({ sinks, links }: Finished): void => {
    for (const link of links) URL.revokeObjectURL(link);
    for (const sink of sinks) sink.discard().catch(() => undefined);
  };

  const forget = (goes: (one: Finished) => boolean): void => {
    for (const one of all.filter(goes)) {
      discard(one);
      // The file is gone from the disk: stop offering it.
      tasks.tell(one.jobId, one.kind, { stage: 'idle' });
    }
    all = all.filter((one) => !goes(one));
  };

  /** Marks the open job's files that are out of date. */
  const look = (): void => {
    const { job, jobId } = document.getState();
    const seen = new Set<FileKind>();
    for (const { kind, isStale } of all.filter((one) => one.jobId === jobId)) {
      const state = tasks.state(jobId, kind);
      if (seen.has(kind) || state.stage === 'idle' || state.stage === 'weaving') continue;
      seen.add(kind);
      const stale = isStale?.(job) ?? false;
      if (stale !== state.stale) tasks.tell(jobId, kind, { ...state, stale });
    }
  };

  return {
    /**
     * Replaces the previous files. They stay on the disk until the next ones are done, because they may still be
     * downloading.
     */
    keep: (
      jobId: string,
      kind: FileKind,
      files: Pick<Finished, 'sinks' | 'links' | 'isStale'>,
    ): void => {
      const before = all.filter((one) => one.jobId === jobId && one.kind === kind);
      const older = new Set(before.slice(1));
      for (const one of older) discard(one);
      for (const link of before[0]?.links ?? []) URL.revokeObjectURL(link);
      all = [{ jobId, kind, ...files }, ...all.filter((one) => !older.has(one))];
    },

    forgetAll: (): void => forget(() => true),
    forgetJob: (jobId: string): void => forget((one) => one.jobId === jobId),

    /** Marks files that get out of date from now on. @returns what ends that */
    start: (): (() => void) => {
      const endings = [
        document.subscribe((now, before) => {
          if (now.job !== before.job || now.jobId !== before.jobId) look();
        }),
        work.subscribe((now, before) => {
          if (now.wholeParallax !== before.wholeParallax) look();
        }),
      ];
      return () => {
        for (const end of endings) end();
      };
    },
  };
};
