/**
 * Stores jobs, on the disk or in memory. Each job has numbered entries, its states, and a listing for the list of
 * jobs, which is written together with the newest entry.
 */
import type { Job } from '../job/schema/job.ts';

/** One state of a job. */
export interface JournalEntry {
  readonly jobId: string;
  /** From 1. */
  readonly seq: number;
  /** Milliseconds since 1970. */
  readonly at: number;
  /** The change that led here, as undo names it. */
  readonly label: string;
  /** Where it was made; left out where every bench shows it, and by earlier versions. */
  readonly bench?: string;
  /** Undo led here. */
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
  /** The frame whose thumbnail shows the job: the middle one; left out without frames. */
  readonly pictureId?: string;
  readonly lens: Pick<Job['lens'], 'pitchMm' | 'thicknessMm' | 'index'>;
  readonly ribs: Job['ribs'];
  readonly print: Job['print'];
  readonly viewSlots: number;
  /** When it was moved to the bin, milliseconds since 1970; left out if it is not there. */
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
  /** Entries up to this number are removed. */
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
  /** `make` gets the newest number, 0 for none. If it throws, nothing is written. */
  append(id: string, make: (newest: number) => Addition): Promise<void>;
  /** Removes a job's entries up to a number. */
  trim(id: string, to: number): Promise<void>;
  /** `change` gets the present listing; if it returns undefined nothing is written. */
  list(
    id: string,
    change: (was: KeptJobEntry | undefined) => KeptJobEntry | undefined,
  ): Promise<void>;
  /** Moves a damaged document out of the journal, with its entry if there is one. */
  setAside(document: unknown, keptAs: string, entry?: JournalEntry): Promise<void>;
  /** All that was set aside. */
  asides(): Promise<unknown[]>;
  /** Deletes a job for good, if its listing is lost or `may` allows it. @returns whether it did. */
  end(id: string, may: (listing: KeptJobEntry) => boolean): Promise<boolean>;
  close(): void;
}
