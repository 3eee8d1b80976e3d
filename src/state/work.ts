/** What is known of the open job's frames, and messages. It lasts as long as the page. */
import { createStore } from 'zustand/vanilla';
import type { PreparedFrame, ProofPicture } from '../contract/frames.ts';
import type { Clipped } from '../core/weave/ghost.ts';
import type { MeasuredParallax, WholeParallax } from '../job/facts/parallax.ts';
import type { KeptReading } from '../job/facts/pitch-history.ts';
import type { ArrivalNote } from '../job/findings/all.ts';

export interface Prepared {
  /** What it was prepared for; a frame is prepared again when its key changes. */
  readonly key: string;
  readonly frame: PreparedFrame;
  readonly proof: ProofPicture | undefined;
}

/** What becomes of pictures that came to a job which has some; a single one may be a photo to be read. */
export type DropChoice =
  'add' | 'replace' | 'new job' | 'photo of strip' | 'photo of print' | 'nothing';

export interface WorkState {
  /** Ids of the job's frames whose original is lost. */
  readonly missingOriginals: ReadonlySet<string>;
  /** How many files of this batch have been looked at. */
  readonly arriving: { readonly done: number; readonly total: number } | undefined;
  readonly arrivalNotes: readonly ArrivalNote[];
  /** Frames that came to a job which has some: how many, what they are called together, and the person's answer. */
  readonly dropQuestion:
    | {
        readonly count: number;
        readonly from: string;
        answer(choice: DropChoice): void;
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
  /** The last complete measurement; softening uses it while another is under way. */
  readonly wholeParallax: WholeParallax | undefined;
  readonly measuring: { readonly done: number; readonly total: number } | undefined;
  /** For each distinct picture; undefined while ghost removal is off or pictures are not ready. */
  readonly ghostClipped: readonly Clipped[] | undefined;
  /** Pitches proved on this computer that the browser let the studio keep. */
  readonly pitchReadings: readonly KeptReading[];
  /** `waits`: an update is ready. `busy`: it cannot begin while something is being woven. */
  readonly newVersion: 'waits' | 'busy' | undefined;
  /** Why a part of the studio, such as a bench, could not be loaded. */
  readonly lostPart: 'newer' | 'unreachable' | 'unknown' | undefined;
  /** A message at the head of the page, until it is dismissed. */
  readonly deskNotice: string | undefined;
  /** Good news of the same kind: what has just become of the job. */
  readonly deskNews: string | undefined;
  /** What did not fit on the browser's disk; shown until dismissed or room is made. */
  readonly noRoomFor: readonly string[];
  /** Counts changes to the list of kept jobs, so that it is read again. */
  readonly jobsChanged: number;
  /** What just happened, for screen readers; the number distinguishes equal sentences. */
  readonly announced: { readonly said: string; readonly serial: number };
}

export const createWorkStore = () =>
  createStore<WorkState>()(() => ({
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
  }));
