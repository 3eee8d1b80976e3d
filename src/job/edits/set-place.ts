/** Gives a picture its place. */
import type { Frame, Job } from '../schema/job.ts';
import type { Place } from '../schema/place.ts';

export const withFrames = (job: Job, edit: (frame: Frame) => Frame): Job => {
  const frames = job.frames.map(edit);
  return frames.every((frame, at) => frame === job.frames[at]) ? job : { ...job, frames };
};

export const same = (one: object | undefined, other: object | undefined): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

export const placed = (frame: Frame, place: Place | undefined): Frame => {
  if (same(frame.place, place)) return frame;
  const { place: _before, ...rest } = frame;
  return place === undefined ? rest : { ...rest, place };
};

/** @param place undefined: where “Picture shape” lays it */
export const setPlace = (job: Job, id: string, place: Place | undefined): Job =>
  withFrames(job, (frame) => (frame.id === id ? placed(frame, place) : frame));
