/** What every way of taking clips apart hands back. */
import { StudioError } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';

/** A frame that is decoded. */
export interface ClipFrame {
  /** Over the whole canvas, as it is shown. */
  draw(context: OffscreenCanvasRenderingContext2D, width: number, height: number): void;
  close(): void;
}

export interface OpenClip {
  readonly widthPx: number;
  readonly heightPx: number;
  /** When each frame begins to be shown, seconds, rising. */
  readonly timesS: readonly number[];
  /** When the last one ends. */
  readonly endS: number;
  /** Frames by their numbers, which rise. Whoever asks for one closes it. */
  frames(numbers: readonly number[]): AsyncGenerator<ClipFrame, void>;
  close(): void;
}

/** More frames than that are hours of film: the list of their times alone would fill the page. */
export const MOST_FRAMES = 500_000;

export const noFrames = (name: string): StudioError =>
  new StudioError('damaged', `"${nameInText(name)}" holds no frames that can be read.`, name);

export const tooMany = (name: string): StudioError =>
  new StudioError(
    'too-large',
    `"${nameInText(name)}" holds more than ${MOST_FRAMES} frames. Cut it to the part that you need, then add that.`,
    name,
  );
