/** The state of work by job: files that are woven, pictures that are read. */
import type { LensScanAnswer, MendPhotoAnswer, StripPhotoAnswer } from '../contract/photo.ts';
import type { PhotoCorners } from '../core/pitch/photo/photo.ts';

export interface WovenFile {
  /** For the person where there are several: "row 1, tile 2". */
  readonly name: string;
  readonly fileName: string;
  readonly byteLength: number;
  /** Object address of the file on the private disk; undefined when the person chose where it went. */
  readonly href: string | undefined;
}

/** Files are woven one after the other. Finished ones are kept when a later one fails or is stopped. */
export type FileState =
  | { readonly stage: 'idle' }
  | {
      readonly stage: 'weaving';
      /** Place of the file being woven, from 0, and how many there are. */
      readonly place: number;
      readonly count: number;
      /** Over all files. */
      readonly rowsDone: number;
      readonly rows: number;
      /** Undefined until it can be told. */
      readonly secondsLeft: number | undefined;
    }
  | {
      readonly stage: 'woven' | 'stopped' | 'failed';
      readonly files: readonly WovenFile[];
      readonly count: number;
      readonly seconds: number;
      /** True once the files no longer show the job, because it has changed. */
      readonly stale: boolean;
      /** Why it failed. */
      readonly message?: string;
      /** What is kept of what is not whole; left out: nothing. */
      readonly begun?: Begun;
    };

export interface Begun {
  /** Of all rows, those that are kept, 0 … 1; whole files count. */
  readonly share: number;
  /** What has changed since, each as in a sentence. Where there is any, it cannot go on. */
  readonly changed: readonly string[];
  /** The page went while it was woven. */
  readonly pageWent: boolean;
}

/** What a person sets for a photo when the studio does not find it well enough. */
export interface ReadByHand {
  readonly corners?: PhotoCorners | undefined;
  readonly readAtMm?: number | undefined;
}

export type PictureState<Answer> =
  | { readonly stage: 'idle' }
  | { readonly stage: 'reading'; readonly fileName: string; readonly share: number }
  | {
      readonly stage: 'read';
      readonly file: File;
      readonly answer: Answer;
      /** `stripKeyOf` the strip in the photo, if it shows one. */
      readonly stripKey?: string;
      /** What the person set for it. */
      readonly byHand?: ReadByHand;
    }
  | { readonly stage: 'stopped' }
  | { readonly stage: 'failed'; readonly message: string };

/** The kinds of woven files: the sheet, a slice of it, its tiles, several prints, and what Calibrate prints. */
export interface FileTasks {
  readonly sheet: FileState;
  readonly slice: FileState;
  readonly tiles: FileState;
  readonly several: FileState;
  readonly strip: FileState;
  readonly wedge: FileState;
  readonly lampTarget: FileState;
}

/** The kinds of pictures that are read: the strip or a failed print under its lens, a bare lens. */
export interface PictureTasks {
  readonly stripPhoto: PictureState<StripPhotoAnswer>;
  readonly printPhoto: PictureState<MendPhotoAnswer>;
  readonly lensScan: PictureState<LensScanAnswer>;
}

/** Views rendered from the job’s scene. */
export type StageViewsState =
  | { readonly stage: 'idle' }
  | {
      readonly stage: 'rendering';
      /** Views, with the share of the one under way. */
      readonly done: number;
      readonly count: number;
      readonly secondsLeft: number | undefined;
    }
  | {
      readonly stage: 'rendered' | 'stopped' | 'failed';
      readonly message: string;
      /** Views that are rendered and not yet in the job, by what they depend on. */
      readonly kept: ReadonlyMap<string, Blob>;
    };

export interface StageTasks {
  readonly stageViews: StageViewsState;
}

export type TaskStates = FileTasks & PictureTasks & StageTasks;
export type FileKind = keyof FileTasks;
export type PictureKind = keyof PictureTasks;
/** Other work: frames that are dropped, added, fetched for a demo, measured, matched, made or prepared; a scene that is added, its depths saved. */
export type TaskKind =
  | keyof TaskStates
  | 'gathering'
  | 'arrivals'
  | 'demo'
  | 'parallax'
  | 'clip'
  | 'matching'
  | 'madeViews'
  | 'scene'
  | 'stageDepths'
  | 'showing'
  | 'prepared';

export interface Task {
  readonly kind: TaskKind;
  /** The job that it belongs to. */
  readonly jobId: string;
  /** Name, for a sentence, of the file that is written; undefined if none is. */
  readonly writes: string | undefined;
  /** The demo print that the job is: each time it is opened it has another id. */
  readonly demo?: string | undefined;
  cancel(): void;
}

export interface TasksState {
  readonly running: readonly Task[];
  /** By job id: the last of each kind. Idle where there is none. */
  readonly byJob: ReadonlyMap<string, Partial<TaskStates>>;
  /** Files whose own part of a bench is on the screen, and shows how they go. */
  readonly shown: readonly FileKind[];
}

const idle = { stage: 'idle' } as const;

/** The state of the job's last work of a kind. */
export const stateIn = <Kind extends keyof TaskStates>(
  { byJob }: TasksState,
  jobId: string,
  kind: Kind,
): TaskStates[Kind] => byJob.get(jobId)?.[kind] ?? idle;

/** Whether anything is being written to a file. */
export const isWriting = ({ running }: TasksState): boolean =>
  running.some(({ writes }) => writes !== undefined);
