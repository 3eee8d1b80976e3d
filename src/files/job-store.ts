/**
 * The kept jobs. Each settled state of a job is a new entry of its journal, written whole or not at
 * all; older ones are trimmed. The newest that can be read is the job; one that cannot is set aside
 * and never deleted. No state is written over one that this page has not seen. Where the browser
 * gives no database everything still works, for as long as the page is open.
 */
import type { Job } from '../job/schema/job.ts';
import { restoreJob } from '../job/schema/migrate.ts';
import { openDiskJournal } from './disk-journal.ts';
import type { PastState } from './job-history.ts';
import { allPixelIds, pastOf, pixelIdsIn } from './job-history.ts';
import type { Journal, JournalEntry, KeptJobEntry } from './journal.ts';
import { listingOf } from './journal.ts';
import {
  carryLastWordsOver,
  forgetLastWords,
  leaveLastWords,
  readLastWords,
} from './last-words.ts';
import { createMemoryJournal } from './memory-journal.ts';
import { newId } from './new-id.ts';
import { whileNaming } from './picture-locks.ts';
import { isNoRoom } from './room.ts';

export type { KeptJobEntry } from './journal.ts';

/** Settled states of each job that are kept, for undo after a reload and should the newest be torn. */
const STATES_KEPT = 30;
/** A deleted job can be brought back for so long, unless its room is asked for. */
const BIN_MS = 7 * 24 * 3600 * 1000;

export type LoadedJob =
  | { readonly kind: 'none' }
  | {
      readonly kind: 'job';
      readonly job: Job;
      /** Number of its entry. */
      readonly seq: number;
      /** Newer states that could not be read, and where they lie now. */
      readonly setAside: readonly SetAside[];
      /** What the last page left came after it, and finds no room here yet: it is to be kept. */
      readonly toKeep?: { readonly label: string; readonly job: Job };
    }
  | { readonly kind: 'damaged'; readonly setAside: readonly SetAside[] };

export interface SetAside {
  readonly reason: string;
  readonly keptAs: string;
}

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

interface Options {
  /** Milliseconds since 1970. For tests. */
  readonly now?: () => number;
}

export const createJobStore = ({ now = Date.now }: Options = {}) => {
  let opened: Promise<Journal> | undefined;
  let whyMemoryOnly: string | undefined;
  let heldUp: (message: string) => void = () => undefined;
  /** By job: the newest entry that this page has seen of a job it works on. */
  const seen = new Map<string, number>();
  /** By job: states that are set out to be written and are not yet. */
  const underWay = new Map<string, number>();
  /** By job: how manieth save left the last words that lie there. */
  const wordsOf = new Map<string, number>();
  let saves = 0;
  /** One write after the other, so that a page never overtakes itself. */
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(task: () => Promise<T>): Promise<T> => {
    const next = last.then(task, task);
    last = next;
    return next;
  };

  const open = async (): Promise<Journal> => {
    try {
      const { journal, carriedOver } = await openDiskJournal({
        now,
        onHeldUp: (message) => heldUp(message),
        onClosed: () => {
          opened = undefined;
        },
      });
      if (carriedOver !== undefined) carryLastWordsOver(carriedOver);
      return journal;
    } catch (error) {
      whyMemoryOnly = error instanceof Error ? error.message : String(error);
      return createMemoryJournal();
    }
  };
  const reach = () => (opened ??= open());

  const setAside = async (document: unknown, reason: string, entry?: JournalEntry) => {
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

  /** On a full disk the way back makes room for the job itself. */
  const appendAtAnyCost = async (id: string, job: Job, settled: Settled): Promise<void> => {
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
  };

  const save = (id: string, job: Job, settled: Settled): Promise<void> => {
    const ahead = underWay.get(id) ?? 0;
    underWay.set(id, ahead + 1);
    const own = (saves += 1);
    // A write dies with its page: until it is known to be done, the words stand for it.
    wordsOf.set(id, own);
    leaveLastWords(id, { after: (seen.get(id) ?? 0) + ahead, label: settled.label, job });
    return inTurn(async () => {
      try {
        await appendAtAnyCost(id, job, settled);
        // Words that a later save left are not on the disk yet.
        if ((wordsOf.get(id) ?? 0) <= own) forgetLastWords(id);
      } finally {
        underWay.set(id, (underWay.get(id) ?? 1) - 1);
      }
    });
  };

  /**
   * Brings in what the last page that held the job could only leave beside the database.
   * @returns it, where there is no room for it yet.
   */
  const layInLastWords = async (id: string): Promise<{ label: string; job: Job } | undefined> => {
    const words = readLastWords(id);
    if (words === undefined) return undefined;
    const journal = await reach();
    const [newest = 0] = await journal.numbers(id);
    const restored = restoreJob(words.job);
    if (restored.ok && words.after >= newest) {
      seen.delete(id);
      const { label } = words;
      try {
        await appendAtAnyCost(id, restored.job, { label });
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
  };

  const listed = async (): Promise<KeptJobEntry[]> => {
    const journal = await reach();
    const list = await journal.listings();
    const known = new Set(list.map(({ id }) => id));
    // A job whose listing was lost is found by its entries.
    for (const id of await journal.jobIds()) {
      const loaded = known.has(id) ? undefined : await load(id);
      if (loaded?.kind !== 'job') continue;
      const listing = listingOf(id, loaded.job, now());
      await journal.list(id, () => listing);
      list.push(listing);
    }
    return list.sort((a, b) => b.changedAt - a.changedAt);
  };

  const mark = async (id: string, deletedAt: number | undefined): Promise<void> =>
    (await reach()).list(id, (was) => {
      if (was === undefined) return undefined;
      const { deletedAt: _before, ...rest } = was;
      return deletedAt === undefined ? rest : { ...rest, deletedAt };
    });

  const createJob = async (job: Job, label = 'as it began'): Promise<string> => {
    const id = newId();
    await save(id, job, { label });
    return id;
  };

  return {
    /** Why nothing outlives this page; undefined where it does. */
    whyMemoryOnly: async (): Promise<string | undefined> => {
      await reach();
      return whyMemoryOnly;
    },

    /** Told when another tab's studio, older or newer, stands in the way of the database. */
    onHeldUp: (tell: (message: string) => void): void => {
      heldUp = tell;
    },

    /** Newest first, without those in the bin. */
    listJobs: async (): Promise<KeptJobEntry[]> =>
      (await listed()).filter(({ deletedAt }) => deletedAt === undefined),

    /** What was deleted and can still be brought back. */
    listBin: async (): Promise<KeptJobEntry[]> =>
      (await listed()).filter(({ deletedAt }) => deletedAt !== undefined),

    /** To look at. To work on a job, `openJob`. */
    loadJobById: load,

    /**
     * To work on it: from here on no state that another page keeps is written over.
     * @param holding this page alone may write, so what the last holder left behind is brought in.
     */
    openJob: (id: string, holding = true): Promise<LoadedJob> =>
      inTurn(async () => {
        // What else goes wrong with them leaves them where they lie.
        const toKeep = holding ? await layInLastWords(id).catch(() => undefined) : undefined;
        const loaded = await load(id);
        seen.set(id, loaded.kind === 'job' ? loaded.seq : 0);
        return loaded.kind === 'job' && toKeep !== undefined ? { ...loaded, toKeep } : loaded;
      }),

    /** The states before that of number `upTo`, oldest first: for undo after a reload. */
    loadPast: async (id: string, upTo = Infinity): Promise<PastState[]> =>
      pastOf(await reach(), id, upTo),

    /**
     * Resolves when the state is on the disk; a page that goes before leaves it as last words.
     * @throws Overtaken when another page has kept a newer one; else what the browser said.
     */
    saveJob: (id: string, job: Job, settled: Settled = { label: 'a change' }): Promise<void> =>
      save(id, job, settled),

    /** Keeps a job as a new one, and gives its id. */
    createJob,

    /** @returns the id of the copy; undefined when there is no such job that can be read. */
    copyJob: (id: string): Promise<string | undefined> =>
      whileNaming(async () => {
        const loaded = await load(id);
        if (loaded.kind !== 'job') return undefined;
        const name = `${loaded.job.name.slice(0, 190)} (copy)`;
        return createJob({ ...loaded.job, name }, 'as it was copied');
      }),

    /** Into the bin, from where `bringBack` fetches it. */
    deleteJob: (id: string): Promise<void> => mark(id, now()),
    bringBack: (id: string): Promise<void> => mark(id, undefined),

    /** Ends what has lain in the bin for a week. */
    emptyBin: (): Promise<void> =>
      inTurn(async () => {
        const isOld = ({ deletedAt }: KeptJobEntry) =>
          deletedAt !== undefined && now() - deletedAt >= BIN_MS;
        const journal = await reach();
        for (const listing of await journal.listings())
          // Another tab may have brought it back meanwhile.
          if (isOld(listing) && (await journal.end(listing.id, isOld))) forgetLastWords(listing.id);
      }),

    /**
     * Ends a job for good. It takes no room to do so.
     * @returns false when it was to be in the bin, and another tab has brought it back.
     */
    endJob: (id: string, fromBin: boolean): Promise<boolean> =>
      inTurn(async () => {
        const journal = await reach();
        const ended = await journal.end(id, (was) => !fromBin || was.deletedAt !== undefined);
        if (ended) forgetLastWords(id);
        return ended;
      }),

    /** Ids of every picture that a kept state of the job names. */
    pixelIdsOfJob: async (id: string): Promise<Set<string>> => pixelIdsIn(await reach(), id),

    /** The same of all jobs, the bin and what was set aside included. */
    keptPixelIds: async (): Promise<Set<string>> => allPixelIds(await reach()),

    /** For tests, where many pages live in one. */
    close: async (): Promise<void> => {
      const journal = await opened;
      opened = undefined;
      journal?.close();
    },
  };
};

export type JobStore = ReturnType<typeof createJobStore>;
