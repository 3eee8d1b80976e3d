/** Edits of a typed title. Its picture is drawn anew for each change of its letters; a change of place needs none. */
import type { Frame, Job } from '../schema/job.ts';
import type { Typed } from '../schema/typed.ts';
import { layFrames } from './frames.ts';
import type { JobEdit } from './edit.ts';
import { withFrames } from './set-place.ts';
import { titleFrameOf } from '../facts/sheet.ts';

/** Letters, drawn as this picture, become the title. They take the place of what was typed before. */
export const putTyped = (job: Job, frame: Frame): Job => {
  const before = titleFrameOf(job);
  const isTyped = before?.typed !== undefined;
  const frames = isTyped
    ? job.frames.map((one) => (one === before ? frame : one))
    : [...job.frames, frame];
  const step = job.title?.step ?? 0;
  return layFrames({ ...job, title: { frame: frame.id, step } }, frames);
};

export const putTypedEdit = (frame: Frame): JobEdit => [
  'title',
  (job) => putTyped(job, frame),
  'title.typed',
];

/** Where the title stands on the print. */
export const moveTyped = (
  frame: Frame,
  to: Partial<Pick<Typed, 'rightMm' | 'downMm'>>,
  how?: string,
): JobEdit => {
  const edit = (job: Job) =>
    withFrames(job, (one) =>
      one.id === frame.id && one.typed !== undefined
        ? { ...one, typed: { ...one.typed, ...to } }
        : one,
    );
  return how === undefined
    ? ['place of the title', edit]
    : ['place of the title', edit, `title.place.${how}`];
};
