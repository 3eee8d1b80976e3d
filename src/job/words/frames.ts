/** How frames are spoken of. */
import { nameInText } from '../../core/names/shown.ts';
import type { Frame, Job } from '../schema/job.ts';

/** "1 frame", "12 frames". */
export const sayFrames = (count: number): string => `${count} ${count === 1 ? 'frame' : 'frames'}`;

/** Frames to choose from, by their number in the sequence and their name. */
export const frameChoices = ({ frames }: Pick<Job, 'frames'>, some: readonly Frame[] = frames) =>
  some.map((frame) => ({
    value: frame.id,
    label: `${frames.indexOf(frame) + 1} · ${nameInText(frame.name)}`,
  }));
