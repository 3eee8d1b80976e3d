/** What the page asks of a synthesis worker: views made from a picture and its depths, or from two frames. */
import type { DepthMeaning } from '../core/frames/synth/depth-map.ts';
import type { FilledPlaces } from '../core/frames/synth/filled-places.ts';
import type { Reply } from './errors.ts';
import type { DecodeOptions, FileToRead } from './frames.ts';

/** A picture and the depth of each of its pixels. */
export interface DepthScene {
  readonly picture: FileToRead;
  readonly depth: FileToRead;
  readonly options: DecodeOptions;
  readonly meaning: DepthMeaning;
  /** From the cameras to the key plane, in the unit of the meaning's depths. */
  readonly distance: number;
  /** The depth that does not move, counted from the rig's key plane. */
  readonly keyZ: number;
  /** The largest slide of the set, as a share of the frame's width. It decides what counts as one surface. */
  readonly mostSlide: number;
  /** Longest side of the made pictures, in pixels; 0: as large as the picture. */
  readonly mostPx: number;
}

export interface ViewRequest extends DepthScene {
  readonly id: string;
  /** How far infinitely distant things move, as a share of the frame's width. Above 0: camera to the right. */
  readonly slide: number;
}

export interface BetweenRequest {
  readonly id: string;
  readonly first: FileToRead;
  readonly second: FileToRead;
  readonly options: DecodeOptions;
  /** Between the first frame (0) and the second (1). */
  readonly place: number;
}

export interface MadeView {
  /** PNG, 8-bit sRGB. */
  readonly file: Blob;
  readonly columns: number;
  readonly rows: number;
  /** Share of the pixels that were filled, 0 … 1. */
  readonly invented: number;
  /** Where they lie, in a small picture. */
  readonly filled: FilledPlaces;
  /** The same as an 8-bit grey PNG: 255 where all was filled. */
  readonly filledFile: Blob;
}

export interface FilledRequest {
  readonly id: string;
  /** A kept `filledFile`. */
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
