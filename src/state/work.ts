/** Work that is under way or has ended: arrivals, preparation, the weave. Gone with the page. */
import { createStore } from 'zustand/vanilla';
import type { LensScanAnswer, MendPhotoAnswer, StripPhotoAnswer } from '../contract/photo.ts';
import type { PreparedFrame, ProofPicture } from '../contract/frames.ts';
import type { PhotoCorners } from '../core/pitch/photo/photo.ts';
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
  /** What it was prepared for; a frame whose key no longer fits is prepared anew. */
  readonly key: string;
  readonly frame: PreparedFrame;
  readonly proof: ProofPicture | undefined;
}

export type WeaveState =
  | { readonly stage: 'idle' }
  | {
      readonly stage: 'weaving';
      readonly rowsDone: number;
      readonly rows: number;
      /** Seconds left, once that can be told. */
      readonly secondsLeft: number | undefined;
    }
  | {
      readonly stage: 'woven';
      readonly fileName: string;
      readonly byteLength: number;
      readonly seconds: number;
      /** Object address of the sheet on the private disk; undefined when the person chose a file. */
      readonly href: string | undefined;
      /** True once the job has changed since: the sheet no longer shows what the job says. */
      readonly stale: boolean;
    }
  | { readonly stage: 'stopped' }
  | { readonly stage: 'failed'; readonly message: string };

/** One finished tile of a print over several lenses. */
export interface TileFile {
  /** For the person: "row 1, tile 2". */
  readonly name: string;
  readonly fileName: string;
  readonly byteLength: number;
  /** As in a woven sheet. */
  readonly href: string | undefined;
}

/** Tiles are woven one after the other; those that are whole stay when the rest is not. */
export type TilesState =
  | { readonly stage: 'idle' }
  | {
      readonly stage: 'weaving';
      /** Place of the one being woven, from 0, and how many there are. */
      readonly place: number;
      readonly count: number;
      /** Over all tiles. */
      readonly rowsDone: number;
      readonly rows: number;
      readonly secondsLeft: number | undefined;
    }
  | {
      readonly stage: 'woven' | 'stopped' | 'failed';
      readonly files: readonly TileFile[];
      readonly count: number;
      readonly seconds: number;
      readonly stale: boolean;
      /** Why it failed. */
      readonly message?: string;
    };

/** What a person sets for a photo where the studio cannot see it, or sees it less well. */
export interface ReadByHand {
  readonly corners?: PhotoCorners | undefined;
  readonly readAtMm?: number | undefined;
}

/** A picture being read, or read. */
export type PictureState<Answer> =
  | { readonly stage: 'idle' }
  | { readonly stage: 'reading'; readonly fileName: string; readonly share: number }
  | {
      readonly stage: 'read';
      readonly file: File;
      readonly answer: Answer;
      /** Of the strip it was read as, where it shows one. */
      readonly stripKey?: string;
      /** What the person set for it. */
      readonly byHand?: ReadByHand;
    }
  | { readonly stage: 'stopped' }
  | { readonly stage: 'failed'; readonly message: string };

export interface WorkState {
  /** Frames of the job whose original is nowhere any more, by id. */
  readonly missingOriginals: ReadonlySet<string>;
  /** Files still being looked at, and how many came in this batch. */
  readonly arriving: { readonly done: number; readonly total: number } | undefined;
  readonly arrivalNotes: readonly ArrivalNote[];
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
  readonly weave: WeaveState;
  readonly tiles: TilesState;
  /** Many prints on one lens sheet, woven into one file. */
  readonly gang: WeaveState;
  /** The pitch strip, woven like a sheet. */
  readonly strip: WeaveState;
  /** A narrow slice of the print, to test a cure on a scrap of lens. */
  readonly slice: WeaveState;
  /** A photo of the strip under its lens. */
  readonly photo: PictureState<StripPhotoAnswer>;
  /** A photo of a failed print under its lens. */
  readonly printPhoto: PictureState<MendPhotoAnswer>;
  /** A scan of a bare lens. */
  readonly lensScan: PictureState<LensScanAnswer>;
  /** Pitches proved on this computer, as far as the browser lets the studio keep them. */
  readonly pitchReadings: readonly KeptReading[];
  /** A newer studio waits to be changed over to; busy: asked for while something was woven. */
  readonly newVersion: 'waits' | 'busy' | undefined;
  /** Why a part of the studio, a bench mostly, could not be loaded; undefined while all came. */
  readonly lostPart: 'newer' | 'unreachable' | 'unknown' | undefined;
  /** Something the whole studio has to say, until it is put away. */
  readonly deskNotice: string | undefined;
  /** What found no room on the browser's disk, until it is put away or room is made. */
  readonly noRoomFor: readonly string[];
  /** Counts changes to the list of kept jobs, so that it is read anew. */
  readonly jobsChanged: number;
  set(change: Partial<Omit<WorkState, 'set'>>): void;
}

export const workStore = createStore<WorkState>()((set) => ({
  missingOriginals: new Set(),
  arriving: undefined,
  arrivalNotes: [],
  thumbnails: new Map(),
  prepared: new Map(),
  preparing: undefined,
  prepareFaults: new Map(),
  parallax: undefined,
  wholeParallax: undefined,
  measuring: undefined,
  weave: { stage: 'idle' },
  tiles: { stage: 'idle' },
  gang: { stage: 'idle' },
  strip: { stage: 'idle' },
  slice: { stage: 'idle' },
  photo: { stage: 'idle' },
  printPhoto: { stage: 'idle' },
  lensScan: { stage: 'idle' },
  pitchReadings: [],
  newVersion: undefined,
  lostPart: undefined,
  deskNotice: undefined,
  noRoomFor: [],
  jobsChanged: 0,
  set: (change) => set(change),
}));
