/** What the page asks of a worker that takes clips and animations apart: what is in one, and some of its frames. */
import type { Reply } from './errors.ts';
import type { Report } from './photo.ts';

export interface ClipRequest {
  readonly id: string;
  readonly file: Blob;
  /** For messages. */
  readonly name: string;
}

/** A frame of a clip, small. */
export interface ClipLook {
  /** Counted from 0. */
  readonly frame: number;
  /** PNG. */
  readonly picture: Blob;
}

export interface ClipFacts {
  /** As it is shown: after rotation tags, with square pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** When each frame begins to be shown, seconds, rising. */
  readonly timesS: Float64Array<ArrayBuffer>;
  /** When the last one ends. */
  readonly endS: number;
  /** Some frames, spread evenly. */
  readonly looks: readonly ClipLook[];
}

export interface TakeRequest extends ClipRequest {
  /** Frames to take, counted from 0, rising. */
  readonly frames: readonly number[];
}

export interface ClipWorker {
  lookAtClip(request: ClipRequest, report: Report): Promise<Reply<ClipFacts>>;
  /** PNG files of 8 bits, one for each frame, in their order. */
  takeFromClip(request: TakeRequest, report: Report): Promise<Reply<readonly Blob[]>>;
  cancel(id: string): void;
}
