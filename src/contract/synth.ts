/** What the page asks of a synthesis worker: views made from a picture and its depths, or from two frames. */
import type { DepthMeaning } from '../core/frames/synth/depth-map.ts';
import type { FilledPlaces } from '../core/frames/synth/filled-places.ts';
import type { Reply } from './errors.ts';
import type { DecodeOptions } from './frames.ts';

export interface FileToRead {
  /** Stays the same while the file's content does: a worker keeps the last ones decoded. */
  readonly key: string;
  readonly file: Blob;
  readonly name: string;
}

/** A picture and the depth of each of its pixels. */
export interface DepthScene {
  readonly picture: FileToRead;
  readonly depth: FileToRead;
  readonly options: DecodeOptions;
  readonly meaning: DepthMeaning;
  /** From the cameras to the key plane, in the unit of the meaning's depths. */
  readonly distance: number;
  /** The depth that stands still, counted from the rig's key plane. */
  readonly keyZ: number;
  /** The largest slide of the set, as a share of the frame's width: decides what counts as one surface. */
  readonly mostSlide: number;
  /** Longest side of the made pictures, in pixels; 0: as large as the picture. */
  readonly mostPx: number;
}

export interface ViewRequest extends DepthScene {
  readonly id: string;
  /** How far what is infinitely far moves, as a share of the frame's width. Above 0: camera to the right. */
  readonly slide: number;
}

export interface BetweenRequest {
  readonly id: string;
  readonly first: FileToRead;
  readonly second: FileToRead;
  readonly options: DecodeOptions;
  /** 0 the first, 1 the second. */
  readonly place: number;
}

export interface MadeView {
  /** PNG, 8-bit sRGB. */
  readonly file: Blob;
  readonly columns: number;
  readonly rows: number;
  /** Share of the pixels that were filled, 0 … 1. */
  readonly invented: number;
  /** Which they were, made small to be kept. */
  readonly filled: FilledPlaces;
  /** The same as PNG, 8-bit grey: 255 where all was filled. */
  readonly filledFile: Blob;
}

export interface FilledRequest {
  readonly id: string;
  /** As `filledFile` was kept. */
  readonly file: Blob;
  /** For messages. */
  readonly name: string;
}

export interface SynthWorker {
  makeView(request: ViewRequest): Promise<Reply<MadeView>>;
  makeBetween(request: BetweenRequest): Promise<Reply<MadeView>>;
  readFilled(request: FilledRequest): Promise<Reply<FilledPlaces>>;
  cancel(id: string): void;
}
