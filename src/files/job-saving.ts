/**
 * Saves states of jobs. A write dies with its page: until it is known to be done, last words stand for
 * it, and the next page that works on the job brings them in.
 */
import type { Job } from '../job/schema/job.ts';
import { restoreJob } from '../job/schema/migrate.ts';
import type { Reach } from './best-journal.ts';
import type { InTurn } from './in-turn.ts';
import type { JobReading } from './job-reading.ts';
import type { JobStates, Settled } from './job-states.ts';
import { forgetLastWords, leaveLastWords, readLastWords } from './last-words.ts';
import { isNoRoom } from './room.ts';

interface Parts {
  readonly reach: Reach;
  readonly inTurn: InTurn;
  readonly states: JobStates;
  readonly setAside: JobReading['setAside'];
}

export const createJobSaving = ({ reach, inTurn, states, setAside }: Parts) => {
  /** By job: states whose write has begun and is not finished. */
  const underWay = new Map<string, number>();
  /** By job: number of the save that left the present last words. */
  const wordsOf = new Map<string, number>();
  let saves = 0;

  return {
    save: (id: string, job: Job, settled: Settled): Promise<void> => {
      const ahead = underWay.get(id) ?? 0;
      underWay.set(id, ahead + 1);
      const own = (saves += 1);
      wordsOf.set(id, own);
      leaveLastWords(id, { after: (states.seen.get(id) ?? 0) + ahead, label: settled.label, job });
      return inTurn(async () => {
        try {
          await states.append(id, job, settled);
          // A later save has left newer last words, which are not on the disk yet: keep those.
          if ((wordsOf.get(id) ?? 0) <= own) forgetLastWords(id);
        } finally {
          underWay.set(id, (underWay.get(id) ?? 1) - 1);
        }
      });
    },

    /** Whether a page left a change of this job beside the database, though the job itself may not be there yet. */
    hasLastWords: (id: string): boolean => readLastWords(id) !== undefined,

    /**
     * Brings in what the last page that held the job could only leave beside the database.
     * @returns that change, where the disk has no room for it yet.
     */
    layInLastWords: async (id: string): Promise<{ label: string; job: Job } | undefined> => {
      const words = readLastWords(id);
      if (words === undefined) return undefined;
      const journal = await reach();
      const [newest = 0] = await journal.numbers(id);
      const restored = restoreJob(words.job);
      if (restored.ok && words.after >= newest) {
        states.seen.delete(id);
        const { label } = words;
        try {
          await states.append(id, restored.job, { label });
        } catch (error) {
          if (isNoRoom(error)) return { label, job: restored.job };
          throw error;
        }
      } else {
        const written = await journal.entry(id, words.after + 1);
        const madeIt = JSON.stringify(written?.job) === JSON.stringify(words.job);
        if (!madeIt) await setAside(words.job, 'It came too late.');
      }
      forgetLastWords(id);
      return undefined;
    },
  };
};
