/**
 * Reads the kept jobs. The newest readable state is the job; states that cannot be read are set aside and never
 * deleted.
 */
import type { Job } from '../job/schema/job.ts';
import { restoreJob } from '../job/schema/migrate.ts';
import type { Reach } from './best-journal.ts';
import type { PastState } from './job-history.ts';
import { allPixelIds, pastOf, pixelIdsIn } from './job-history.ts';
import type { JournalEntry, KeptJobEntry } from './journal.ts';
import { listingOf } from './journal.ts';
import { newId } from './new-id.ts';

export type LoadedJob =
  | { readonly kind: 'none' }
  | {
      readonly kind: 'job';
      readonly job: Job;
      /** Number of its entry. */
      readonly seq: number;
      /** Newer states that could not be read. */
      readonly setAside: readonly SetAside[];
      /** A newer change of the last page that does not fit on the disk yet: write it as soon as possible. */
      readonly toKeep?: { readonly label: string; readonly job: Job };
    }
  | { readonly kind: 'damaged'; readonly setAside: readonly SetAside[] };

export interface SetAside {
  readonly reason: string;
  readonly keptAs: string;
}

export const createJobReading = (reach: Reach, now: () => number) => {
  const setAside = async (
    document: unknown,
    reason: string,
    entry?: JournalEntry,
  ): Promise<SetAside> => {
    const keptAs = `set aside ${new Date(now()).toISOString()} ${newId().slice(0, 6)}`;
    await (await reach()).setAside(document, keptAs, entry);
    return { reason, keptAs };
  };

  const load = async (id: string): Promise<LoadedJob> => {
    const journal = await reach();
    const aside: SetAside[] = [];
    for (const seq of await journal.numbers(id)) {
      const entry = await journal.entry(id, seq);
      if (entry === undefined) continue;
      const restored = restoreJob(entry.job);
      if (restored.ok) return { kind: 'job', job: restored.job, seq, setAside: aside };
      aside.push(await setAside(entry.job, restored.reason, entry));
    }
    if (aside.length === 0) return { kind: 'none' };
    await journal.end(id, () => true);
    return { kind: 'damaged', setAside: aside };
  };

  const listed = async (): Promise<KeptJobEntry[]> => {
    const journal = await reach();
    const list = await journal.listings();
    const known = new Set(list.map(({ id }) => id));
    // Restore listings that were lost.
    for (const id of await journal.jobIds()) {
      const loaded = known.has(id) ? undefined : await load(id);
      if (loaded?.kind !== 'job') continue;
      const listing = listingOf(id, loaded.job, now());
      await journal.list(id, () => listing);
      list.push(listing);
    }
    return list.sort((a, b) => b.changedAt - a.changedAt);
  };

  return {
    setAside,

    /** Newest first, without those in the bin. */
    listJobs: async (): Promise<KeptJobEntry[]> =>
      (await listed()).filter(({ deletedAt }) => deletedAt === undefined),

    /** Deleted jobs that can still be brought back. */
    listBin: async (): Promise<KeptJobEntry[]> =>
      (await listed()).filter(({ deletedAt }) => deletedAt !== undefined),

    /** For reading only. To work on a job use `openJob`. */
    loadJobById: load,

    /** The states before that of number `upTo`, oldest first: for undo after a reload. */
    loadPast: async (id: string, upTo = Infinity): Promise<PastState[]> =>
      pastOf(await reach(), id, upTo),

    /** Ids of every picture that a kept state of the job names. */
    pixelIdsOfJob: async (id: string): Promise<Set<string>> => pixelIdsIn(await reach(), id),

    /** The same for all jobs, the bin and what was set aside. */
    keptPixelIds: async (): Promise<Set<string>> => allPixelIds(await reach()),
  };
};

export type JobReading = ReturnType<typeof createJobReading>;
