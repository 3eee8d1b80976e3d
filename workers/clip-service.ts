/** Takes clips apart: what is in one, and some of its frames as PNG files. */
import type {
  ClipFacts,
  ClipLook,
  ClipRequest,
  ClipWorker,
  TakeRequest,
} from '../src/contract/clip.ts';
import { StudioError, messageOf } from '../src/contract/errors.ts';
import type { Report } from '../src/contract/photo.ts';
import { spreadEvenly } from '../src/core/frames/clip-picks.ts';
import type { Checkpoint } from './answer.ts';
import { Calls, StoppedSignal } from './answer.ts';
import type { OpenClip } from './clip/clip.ts';
import { openClip } from './clip/open.ts';
import { damaged } from './decode/image.ts';

/** Small pictures to choose by. */
const LOOKS = 24;
const LOOK_PX = 160;

/** Draws frames at a size, one after the other, each as a PNG. */
const drawn = async (
  clip: OpenClip,
  numbers: readonly number[],
  longestPx: number,
  checkpoint: Checkpoint,
  report: Report,
): Promise<Blob[]> => {
  const scale = Math.min(1, longestPx / Math.max(clip.widthPx, clip.heightPx));
  const width = Math.max(1, Math.round(clip.widthPx * scale));
  const height = Math.max(1, Math.round(clip.heightPx * scale));
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null)
    throw new StudioError('internal', 'This browser gives workers no canvas to draw frames on.');
  const pictures: Blob[] = [];
  for await (const frame of clip.frames(numbers)) {
    context.clearRect(0, 0, width, height);
    frame.draw(context, width, height);
    frame.close();
    pictures.push(await canvas.convertToBlob({ type: 'image/png' }));
    report(pictures.length / numbers.length);
    await checkpoint();
  }
  return pictures;
};

/** What a decoder says of a file is a fault of that file. */
const asFault = (error: unknown, name: string): unknown =>
  error instanceof StudioError || error instanceof StoppedSignal
    ? error
    : damaged(name, messageOf(error).replace(/\.$/, ''));

const opened = async <T>(
  { file, name }: ClipRequest,
  checkpoint: Checkpoint,
  work: (clip: OpenClip) => Promise<T>,
): Promise<T> => {
  let clip: OpenClip | undefined;
  try {
    clip = await openClip(file, name, checkpoint);
    return await work(clip);
  } catch (error) {
    throw asFault(error, name);
  } finally {
    clip?.close();
  }
};

const lookAtClip = (
  request: ClipRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<ClipFacts> =>
  opened(request, checkpoint, async (clip) => {
    const { widthPx, heightPx, timesS, endS } = clip;
    const shown = spreadEvenly(0, timesS.length - 1, LOOKS);
    const pictures = await drawn(clip, shown, LOOK_PX, checkpoint, report);
    const looks = pictures.map((picture, at): ClipLook => ({ frame: shown[at] ?? 0, picture }));
    return { widthPx, heightPx, timesS: Float64Array.from(timesS), endS, looks };
  });

const takeFromClip = (
  request: TakeRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<readonly Blob[]> =>
  opened(request, checkpoint, (clip) => drawn(clip, request.frames, Infinity, checkpoint, report));

export const createClipService = (): ClipWorker => {
  const calls = new Calls();
  return {
    lookAtClip: calls.method(lookAtClip, ({ timesS }) => [timesS.buffer]),
    takeFromClip: calls.method(takeFromClip),
    cancel: calls.cancel,
  };
};
