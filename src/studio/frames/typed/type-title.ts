/** Makes a typed title the job's: drawn, looked at like any picture that comes, kept, and put over the slots. */
import { messageOf } from '../../../contract/errors.ts';
import { newId } from '../../../files/new-id.ts';
import { putTypedEdit } from '../../../job/edits/typed.ts';
import { typedOf } from '../../../job/facts/title.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { Studio } from '../../studio.ts';
import { lookAtFrame } from '../look-and-prepare.ts';
import { copyBehind } from '../take-in.ts';
import type { TypedWish } from './draw.ts';
import { drawTitle } from './draw.ts';

/** The letters that a title begins with: a fifteenth of the print high, in the lower part of it. */
export const firstWish = ({ print }: Job): TypedWish => ({
  text: '',
  face: 'Source Sans 3',
  weight: 700,
  capMm: Math.max(1, Math.round((10 * print.heightMm) / 15) / 10),
  colour: '#ffffff',
  outlineMm: 0,
  outlineColour: '#000000',
  align: 'middle',
  rightMm: 0,
  downMm: Math.round(print.heightMm / 3),
});

/** Of the frame, and of its file in a job file: its first words. */
const nameOf = (text: string): string => {
  const words = text
    .replace(/[\p{C}\\/:*?"<>|]+/gu, ' ')
    .trim()
    .slice(0, 40)
    .trim();
  return `Title ${words === '' ? '' : `${words} `}`.trim() + '.png';
};

/** Long enough to type the next letter. */
const SETTLE_MS = 150;

/**
 * Draws the letters and makes them the title.
 * @returns what keeps it from being so, as a sentence; undefined where nothing does or it was stopped
 */
export const typeTitle = async (
  studio: Studio,
  wish: TypedWish,
  signal: AbortSignal,
): Promise<string | undefined> => {
  const { document, thumbnails } = studio;
  const { job, jobId } = document.getState();
  const before = typedOf(job);
  /** Overtaken by what was typed since. */
  const isOld = () => signal.aborted;
  await new Promise((resolve) => setTimeout(resolve, SETTLE_MS));
  if (isOld()) return undefined;
  try {
    const { file, typed } = await drawTitle(wish, job.lens.pitchMm);
    if (isOld()) return undefined;
    const name = nameOf(wish.text);
    const looked = await lookAtFrame(studio, { id: newId(), name, file }, job, {
      prepare: false,
      signal,
    });
    if (!looked.done || isOld()) return undefined;
    const now = document.getState();
    // Undone, removed, or another job, meanwhile.
    if (now.jobId !== jobId || typedOf(now.job)?.text !== before?.text) return undefined;
    const { frame, facts } = looked.value;
    copyBehind(studio, frame.id, name, file, facts.thumbnail);
    thumbnails.show(frame.id, facts.thumbnail);
    const { rightMm, downMm } = typedOf(now.job) ?? typed;
    return studio.change(...putTypedEdit({ ...frame, typed: { ...typed, rightMm, downMm } }));
  } catch (error) {
    return messageOf(error);
  }
};
