/**
 * Adds states to jobs. It remembers the newest state that this page has seen of each job, and never overwrites a
 * state that the page has not seen.
 */
import type { Job } from '../job/schema/job.ts';
import type { Reach } from './best-journal.ts';
import { listingOf } from './journal.ts';
import { isNoRoom } from './room.ts';

/** How many states of each job are kept: for undo after a reload, and in case the newest is damaged. */
const STATES_KEPT = 30;

/** The change that led to a state, for undo after a reload. */
export interface Settled {
  readonly label: string;
  /** The bench where it was made; left out where every bench shows it. */
  readonly bench?: string | undefined;
  readonly undone?: boolean;
}

/** Nothing was written, because another page has written a newer state. */
export class Overtaken extends Error {
  constructor() {
    super('another tab has kept a newer state of this job');
    this.name = 'Overtaken';
  }
}

export const createJobStates = (reach: Reach, now: () => number) => {
  /** By job that this page works on: the newest entry that it has seen. */
  const seen = new Map<string, number>();

  /** @throws Overtaken */
  const append = async (id: string, job: Job, { label, bench, undone }: Settled): Promise<void> => {
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
          ...(bench === undefined ? {} : { bench }),
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

    /** Adds a state. On a full disk it removes the undo steps to make room. @throws Overtaken */
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
