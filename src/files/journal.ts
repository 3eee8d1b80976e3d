/**
 * What keeps jobs, whether on the disk or in memory. Each job has numbered entries, its settled
 * states; a listing, which is what a list of jobs shows of it, is written together with its newest.
 */
import type { Job } from '../job/schema/job.ts';

/** One settled state of a job. */
export interface JournalEntry {
  readonly jobId: string;
  /** From 1. */
  readonly seq: number;
  /** Milliseconds since 1970. */
  readonly at: number;
  /** What led here, as undo names it. */
  readonly label: string;
  /** It was led to by undo. */
  readonly undone?: true;
  /** A document as `restoreJob` reads it. */
  readonly job: unknown;
}

/** A kept job as lists show it. */
export interface KeptJobEntry {
  readonly id: string;
  readonly name: string;
  /** The demo print that it is; left out for a job of the person's own. */
  readonly demo?: string;
  /** Milliseconds since 1970. */
  readonly changedAt: number;
  readonly frameCount: number;
  /** The frames' originals: id and size in bytes. */
  readonly pictures: readonly { readonly id: string; readonly byteLength: number }[];
  /** Frame whose thumbnail stands for the job: the middle one; left out where there is none. */
  readonly pictureId?: string;
  readonly lens: Pick<Job['lens'], 'pitchMm' | 'thicknessMm' | 'index'>;
  readonly ribs: Job['ribs'];
  readonly print: Job['print'];
  readonly viewSlots: number;
  /** Since when it lies in the bin; left out while it does not. Milliseconds since 1970. */
  readonly deletedAt?: number;
}

export const listingOf = (id: string, job: Job, at: number): KeptJobEntry => {
  const { frames, lens } = job;
  const picture = frames[(frames.length - 1) >> 1];
  return {
    id,
    name: job.name,
    ...(job.demo === undefined ? {} : { demo: job.demo }),
    changedAt: at,
    frameCount: frames.length,
    pictures: frames.map(({ id: frameId, byteLength }) => ({ id: frameId, byteLength })),
    ...(picture === undefined ? {} : { pictureId: picture.id }),
    lens: { pitchMm: lens.pitchMm, thicknessMm: lens.thicknessMm, index: lens.index },
    ribs: job.ribs,
    print: job.print,
    viewSlots: job.viewSlots,
  };
};

export interface Addition {
  readonly entry: JournalEntry;
  readonly listing: KeptJobEntry;
  /** Entries up to this number go. */
  readonly trimTo: number;
}

/** Each call is done whole or not at all. */
export interface Journal {
  /** Numbers of a job's entries, newest first. */
  numbers(id: string): Promise<number[]>;
  entry(id: string, seq: number): Promise<JournalEntry | undefined>;
  /** Of every job that has entries. */
  jobIds(): Promise<string[]>;
  listings(): Promise<KeptJobEntry[]>;
  /** `make` is told the newest number, 0 for none; when it throws nothing is written. */
  append(id: string, make: (newest: number) => Addition): Promise<void>;
  /** Ends a job's entries up to a number. */
  trim(id: string, to: number): Promise<void>;
  /** `change` is told the present listing. */
  list(
    id: string,
    change: (was: KeptJobEntry | undefined) => KeptJobEntry | undefined,
  ): Promise<void>;
  /** Sets a damaged document aside, where nothing reads it; its entry, if any, is removed from the journal. */
  setAside(document: unknown, keptAs: string, entry?: JournalEntry): Promise<void>;
  /** All that was set aside. */
  asides(): Promise<unknown[]>;
  /** Deletes a job for good, if its listing is lost or `may` allows it. @returns whether it did. */
  end(id: string, may: (listing: KeptJobEntry) => boolean): Promise<boolean>;
  close(): void;
}
