/**
 * Adds states to jobs, and remembers the newest state this page has seen of each: it never overwrites a state
 * that it has not seen.
 */
import type { Job } from '../job/schema/job.ts';
import type { Reach } from './best-journal.ts';
import { listingOf } from './journal.ts';
import { isNoRoom } from './room.ts';

/** How many settled states of each job are kept: for undo after a reload, and in case the newest is damaged. */
const STATES_KEPT = 30;

/** What led to a state: for undo after a reload. */
export interface Settled {
  readonly label: string;
  readonly undone?: boolean;
}

/** Another page has kept a newer state than this one knows: nothing was written. */
export class Overtaken extends Error {
  constructor() {
    super('another tab has kept a newer state of this job');
    this.name = 'Overtaken';
  }
}

export const createJobStates = (reach: Reach, now: () => number) => {
  /** By job: the newest entry that this page has seen of a job it works on. */
  const seen = new Map<string, number>();

  /** One state more. @throws Overtaken */
  const append = async (id: string, job: Job, { label, undone }: Settled): Promise<void> => {
    let written = 0;
    await (
      await reach()
    ).append(id, (newest) => {
      if (newest > (seen.get(id) ?? newest)) throw new Overtaken();
      const at = now();
      written = newest + 1;
      return {
        entry: {
          jobId: id,
          seq: written,
          at,
          label,
          ...(undone === true ? { undone } : {}),
          job,
        },
        listing: listingOf(id, job, at),
        trimTo: written - STATES_KEPT,
      };
    });
    seen.set(id, written);
  };

  return {
    seen,

    /** One state more, even on a full disk: the way back makes room for the job itself. @throws Overtaken */
    append: async (id: string, job: Job, settled: Settled): Promise<void> => {
      try {
        await append(id, job, settled);
      } catch (error) {
        if (!isNoRoom(error)) throw error;
        const journal = await reach();
        const [newest = 0] = await journal.numbers(id);
        if (newest < 2) throw error;
        await journal.trim(id, newest - 1);
        await append(id, job, settled);
      }
    },
  };
};

export type JobStates = ReturnType<typeof createJobStates>;
