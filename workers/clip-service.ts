/** Takes clips apart: what is in one, and some of its frames as PNG files. */
import type {
  ClipFacts,
  ClipLook,
  ClipRequest,
  ClipWorker,
  TakeRequest,
} from '../src/contract/clip.ts';
import type { Report } from '../src/contract/photo.ts';
import { spreadEvenly } from '../src/core/frames/clip-picks.ts';
import type { Checkpoint } from './answer.ts';
import { Calls } from './answer.ts';
import type { OpenClip } from './clip/clip.ts';
import { openClip } from './clip/open.ts';

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
  if (context === null) throw new Error('This browser gives workers no canvas.');
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

const opened = async <T>(
  { file, name }: ClipRequest,
  checkpoint: Checkpoint,
  work: (clip: OpenClip) => Promise<T>,
): Promise<T> => {
  const clip = await openClip(file, name, checkpoint);
  try {
    return await work(clip);
  } finally {
    clip.close();
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
