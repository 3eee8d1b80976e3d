/** What the page asks of a parallax worker: how places move from one frame to the next. */
import type { FrontVotes } from '../core/frames/parallax/front.ts';
import type { PairMotion } from '../core/frames/parallax/pair.ts';
import type { Track } from '../core/frames/parallax/track.ts';
import type { Reply } from './errors.ts';
import type { DecodeOptions } from './frames.ts';

export interface FrameToMatch {
  /** Stays the same while the frame's pixels do: a worker keeps the last few decoded. */
  readonly key: string;
  readonly file: Blob;
  readonly name: string;
}

/** How frames are made ready for matching: the same for all of a sequence. */
export interface MatchSettings {
  readonly options: DecodeOptions;
  readonly ribs: 'upright' | 'lying';
  /** Size that every frame is averaged down to. */
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface PairRequest extends MatchSettings {
  readonly id: string;
  readonly from: FrameToMatch;
  readonly to: FrameToMatch;
  /** 0: the finest. 1 and more: that often halved, for a quick first look. */
  readonly downTo: number;
}

/** Three frames at equal distances in the sequence. */
export interface FrontRequest extends MatchSettings {
  readonly id: string;
  readonly before: FrameToMatch;
  readonly mid: FrameToMatch;
  readonly next: FrameToMatch;
}

/** The motion from frame `index` to the next, measured again through the whole sequence. */
export interface ThroughRequest extends MatchSettings {
  readonly id: string;
  /** In order. */
  readonly frames: readonly FrameToMatch[];
  readonly index: number;
  /** What matching the pair alone gave. */
  readonly pair: PairMotion;
  readonly track: Track;
}

export interface ParallaxWorker {
  matchPair(request: PairRequest): Promise<Reply<PairMotion>>;
  matchThrough(request: ThroughRequest): Promise<Reply<PairMotion>>;
  askFront(request: FrontRequest): Promise<Reply<FrontVotes>>;
  cancel(id: string): void;
}
