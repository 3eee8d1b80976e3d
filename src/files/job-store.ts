/**
 * The kept jobs. Each state of a job is a new entry of its journal, written whole or not at all; old entries are
 * removed. Without a database jobs last as long as the page. The parts: the journal (best-journal.ts), reading
 * (job-reading.ts), writing states (job-states.ts), saving with last words (job-saving.ts), the bin
 * (job-bin.ts).
 */
import { ownCopyOf } from '../job/edits/begin.ts';
import type { Job } from '../job/schema/job.ts';
import { createBestJournal } from './best-journal.ts';
import { createTurn } from './in-turn.ts';
import { createJobBin } from './job-bin.ts';
import type { LoadedJob } from './job-reading.ts';
import { createJobReading } from './job-reading.ts';
import { createJobSaving } from './job-saving.ts';
import type { Settled } from './job-states.ts';
import { createJobStates } from './job-states.ts';
import { newId } from './new-id.ts';
import { whileNaming } from './picture-locks.ts';

export type { LoadedJob, SetAside } from './job-reading.ts';
export type { Settled } from './job-states.ts';
export { Overtaken } from './job-states.ts';
export type { KeptJobEntry } from './journal.ts';

interface Options {
  /** Milliseconds since 1970. For tests. */
  readonly now?: () => number;
}

export const createJobStore = ({ now = Date.now }: Options = {}) => {
  const { reach, ...database } = createBestJournal(now);
  /** Writes one after the other, so that a page never overtakes itself. */
  const inTurn = createTurn();
  const { setAside, ...reading } = createJobReading(reach, now);
  const states = createJobStates(reach, now);
  const { save, layInLastWords, hasLastWords } = createJobSaving({
    reach,
    inTurn,
    states,
    setAside,
  });

  const createJob = async (job: Job, label = 'as it began'): Promise<string> => {
    const id = newId();
    await save(id, job, { label });
    return id;
  };

  return {
    ...database,
    ...reading,
    ...createJobBin(reach, inTurn, now),

    /**
     * Opens a job to work on it: from now on this page never overwrites a state that another page stored.
     * @param holding only this page may write, so the last words of the page before are brought in.
     */
    openJob: (id: string, holding = true): Promise<LoadedJob> =>
      inTurn(async () => {
        // After an error the last words stay where they are.
        const toKeep = holding ? await layInLastWords(id).catch(() => undefined) : undefined;
        const loaded = await reading.loadJobById(id);
        states.seen.set(id, loaded.kind === 'job' ? loaded.seq : 0);
        return loaded.kind === 'job' && toKeep !== undefined ? { ...loaded, toKeep } : loaded;
      }),

    /**
     * Resolves when the state is on the disk. A page that closes before leaves it as last words.
     * @throws Overtaken if another page has stored a newer state; else what the browser said.
     */
    saveJob: (id: string, job: Job, settled: Settled = { label: 'a change' }): Promise<void> =>
      save(id, job, settled),

    hasLastWords,

    /** Stores a job as a new one and returns its id. */
    createJob,

    /** @returns the id of the copy; undefined if the job cannot be read. */
    copyJob: (id: string): Promise<string | undefined> =>
      whileNaming(async () => {
        const loaded = await reading.loadJobById(id);
        if (loaded.kind !== 'job') return undefined;
        const { demo, ...job } = loaded.job;
        const name = demo === undefined ? `${job.name.slice(0, 190)} (copy)` : ownCopyOf(job).name;
        return createJob({ ...job, name }, 'as it was copied');
      }),
  };
};

export type JobStore = ReturnType<typeof createJobStore>;
