/** What the page asks of a picture worker: how two pictures lie on each other, and how bright one is beside the other. */
import type { LightMatch } from '../core/frames/align/match-light.ts';
import type { PictureMatch } from '../core/frames/align/match-pictures.ts';
import type { PictureArea } from '../core/weave/picture-area.ts';
import type { Reply } from './errors.ts';
import type { DecodeOptions, FileToRead } from './frames.ts';

export interface LayOnRequest {
  readonly id: string;
  readonly from: FileToRead;
  readonly to: FileToRead;
  readonly options: DecodeOptions;
}

/** A picture as it lies on the print. */
export interface LaidFile extends FileToRead {
  readonly area: PictureArea;
  readonly options: DecodeOptions;
}

export interface LightRequest {
  readonly id: string;
  readonly from: LaidFile;
  readonly to: LaidFile;
}

export interface AlignWorker {
  /** The similarity is from pixels of `from` to pixels of `to`, both as shown. */
  layOn(request: LayOnRequest): Promise<Reply<PictureMatch>>;
  matchLight(request: LightRequest): Promise<Reply<LightMatch>>;
  cancel(id: string): void;
}
