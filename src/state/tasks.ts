/** How work goes and went, by the job it belongs to: files that are woven, pictures that are read. */
import type { LensScanAnswer, MendPhotoAnswer, StripPhotoAnswer } from '../contract/photo.ts';
import type { PhotoCorners } from '../core/pitch/photo/photo.ts';

/** One finished file. */
export interface WovenFile {
  /** For the person where there are several: "row 1, tile 2". */
  readonly name: string;
  readonly fileName: string;
  readonly byteLength: number;
  /** Object address of the file on the private disk; undefined when the person chose where it went. */
  readonly href: string | undefined;
}

/** Files are woven one after the other; those that are whole stay when the rest is not. */
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
      /** True once the job has changed since: the files no longer show what the job says. */
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

/** What is woven to files: the whole sheet, a narrow slice of it, its tiles, several prints on one lens sheet, and what Calibrate prints. */
export interface FileTasks {
  readonly sheet: FileState;
  readonly slice: FileState;
  readonly tiles: FileState;
  readonly several: FileState;
  readonly strip: FileState;
  readonly wedge: FileState;
  readonly lampTarget: FileState;
}

/** What is read from pictures: the strip under its lens, a failed print under its lens, a bare lens. */
export interface PictureTasks {
  readonly stripPhoto: PictureState<StripPhotoAnswer>;
  readonly printPhoto: PictureState<MendPhotoAnswer>;
  readonly lensScan: PictureState<LensScanAnswer>;
}

export type TaskStates = FileTasks & PictureTasks;
export type FileKind = keyof FileTasks;
export type PictureKind = keyof PictureTasks;
/** Work besides: frames that are dropped, added, fetched for a demo, measured, made, or prepared for the sheet. */
export type TaskKind =
  keyof TaskStates | 'gathering' | 'arrivals' | 'demo' | 'parallax' | 'madeViews' | 'prepared';

/** One piece of work under way. */
export interface Task {
  readonly kind: TaskKind;
  /** The job that it belongs to. */
  readonly jobId: string;
  /** Name of what is written to a file, as a person would say it; undefined where nothing is. */
  readonly writes: string | undefined;
  cancel(): void;
}

export interface TasksState {
  readonly running: readonly Task[];
  /** By job id: the last of each kind. Idle where there is none. */
  readonly byJob: ReadonlyMap<string, Partial<TaskStates>>;
}

const idle = { stage: 'idle' } as const;

/** How the last of a kind went in a job. */
export const stateIn = <Kind extends keyof TaskStates>(
  { byJob }: TasksState,
  jobId: string,
  kind: Kind,
): TaskStates[Kind] => byJob.get(jobId)?.[kind] ?? idle;

/** Whether anything is being written to a file. */
export const isWriting = ({ running }: TasksState): boolean =>
  running.some(({ writes }) => writes !== undefined);
