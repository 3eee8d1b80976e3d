/** What is known of the open job's frames, and what there is to say. Gone with the page. */
import { createStore } from 'zustand/vanilla';
import type { PreparedFrame, ProofPicture } from '../contract/frames.ts';
import type { Clipped } from '../core/weave/ghost.ts';
import type { MeasuredParallax, WholeParallax } from '../job/facts/parallax.ts';
import type { KeptReading } from '../job/facts/pitch-history.ts';

/** One thing the person should know about what arrived, each with the file it is about. */
export interface ArrivalNote {
  readonly id: string;
  readonly severity: 'problem' | 'note';
  readonly file?: string;
  readonly message: string;
}

export interface Prepared {
  /** What it was prepared for; a frame whose key no longer fits is prepared again. */
  readonly key: string;
  readonly frame: PreparedFrame;
  readonly proof: ProofPicture | undefined;
}

export interface WorkState {
  /** Frames of the job whose original is nowhere any more, by id. */
  readonly missingOriginals: ReadonlySet<string>;
  /** Files still being looked at, and how many came in this batch. */
  readonly arriving: { readonly done: number; readonly total: number } | undefined;
  readonly arrivalNotes: readonly ArrivalNote[];
  /** Frames that came to a job which has some: how many, what they are called together, and the person's answer. */
  readonly dropQuestion:
    | {
        readonly count: number;
        readonly from: string;
        answer(choice: 'add' | 'replace' | 'new job' | 'nothing'): void;
      }
    | undefined;
  /** Object addresses of thumbnails by frame id. */
  readonly thumbnails: ReadonlyMap<string, string>;
  /** By frame id. */
  readonly prepared: ReadonlyMap<string, Prepared>;
  readonly preparing: { readonly done: number; readonly total: number } | undefined;
  /** Why a frame could not be prepared, by frame id. */
  readonly prepareFaults: ReadonlyMap<string, string>;
  /** Motion between neighbouring frames, as far as it has been measured. */
  readonly parallax: MeasuredParallax | undefined;
  /** The last that was measured to the end; softening goes by it while another is under way. */
  readonly wholeParallax: WholeParallax | undefined;
  readonly measuring: { readonly done: number; readonly total: number } | undefined;
  /** By different picture; undefined while no ghost removal is on or pictures are not ready. */
  readonly ghostClipped: readonly Clipped[] | undefined;
  /** Pitches proved on this computer, as far as the browser lets the studio keep them. */
  readonly pitchReadings: readonly KeptReading[];
  /** `waits`: an update is ready. `busy`: it was asked for while something was being woven. */
  readonly newVersion: 'waits' | 'busy' | undefined;
  /** Why a part of the studio, a bench mostly, could not be loaded; undefined while all came. */
  readonly lostPart: 'newer' | 'unreachable' | 'unknown' | undefined;
  /** Something the whole studio has to say, until it is dismissed. */
  readonly deskNotice: string | undefined;
  /** Good news of the same kind: what has just become of the job. */
  readonly deskNews: string | undefined;
  /** What did not fit on the browser's disk; shown until dismissed or room is made. */
  readonly noRoomFor: readonly string[];
  /** Counts changes to the list of kept jobs, so that it is read again. */
  readonly jobsChanged: number;
  /** What just happened, in a sentence, for those who listen; the number tells two alike apart. */
  readonly announced: { readonly said: string; readonly serial: number };
  set(change: Partial<Omit<WorkState, 'set'>>): void;
}

export const createWorkStore = () =>
  createStore<WorkState>()((set) => ({
    missingOriginals: new Set(),
    arriving: undefined,
    arrivalNotes: [],
    dropQuestion: undefined,
    thumbnails: new Map(),
    prepared: new Map(),
    preparing: undefined,
    prepareFaults: new Map(),
    parallax: undefined,
    wholeParallax: undefined,
    measuring: undefined,
    ghostClipped: undefined,
    pitchReadings: [],
    newVersion: undefined,
    lostPart: undefined,
    deskNotice: undefined,
    deskNews: undefined,
    noRoomFor: [],
    jobsChanged: 0,
    announced: { said: '', serial: 0 },
    set: (change) => set(change),
  }));

export type WorkStore = ReturnType<typeof createWorkStore>;
