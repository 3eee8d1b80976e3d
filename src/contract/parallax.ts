/** What the page asks of a parallax worker: how things move from one frame to the next. */
import type { FrontVotes } from '../core/frames/parallax/front.ts';
import type { PairMotion } from '../core/frames/parallax/pair.ts';
import type { Track } from '../core/frames/parallax/track.ts';
import type { Reply } from './errors.ts';
import type { DecodeOptions, FileToRead } from './frames.ts';

/** How the frames of a sequence are made ready for matching. */
export interface MatchSettings {
  readonly options: DecodeOptions;
  readonly ribs: 'upright' | 'lying';
  /** Every frame is averaged down to this size. */
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface PairRequest extends MatchSettings {
  readonly id: string;
  readonly from: FileToRead;
  readonly to: FileToRead;
  /** How often the frames are halved: 0 is the finest, more is for a quick first look. */
  readonly downTo: number;
}

/** Three frames at equal distances in the sequence. */
export interface FrontRequest extends MatchSettings {
  readonly id: string;
  readonly before: FileToRead;
  readonly mid: FileToRead;
  readonly next: FileToRead;
}

/** The motion from frame `index` to the next, measured again through the whole sequence. */
export interface ThroughRequest extends MatchSettings {
  readonly id: string;
  /** In order. */
  readonly frames: readonly FileToRead[];
  readonly index: number;
  /** The motion from matching this pair only. */
  readonly pair: PairMotion;
  readonly track: Track;
}

export interface ParallaxWorker {
  matchPair(request: PairRequest): Promise<Reply<PairMotion>>;
  matchThrough(request: ThroughRequest): Promise<Reply<PairMotion>>;
  askFront(request: FrontRequest): Promise<Reply<FrontVotes>>;
  cancel(id: string): void;
}
