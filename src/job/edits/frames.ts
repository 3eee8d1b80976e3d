/** Edits of the sequence. Slots filled by hand keep their frames. */
import { inNaturalOrder, insertInOrder } from '../../core/frames/order.ts';
import { tidySlots } from '../../core/frames/slots.ts';
import type { Frame, Job } from '../schema/job.ts';
import { slotsOf } from '../facts/sheet.ts';

const withSlots = (job: Job, slotsByHand: readonly string[] | undefined): Job => {
  const { slotsByHand: _before, ...rest } = job;
  const tidy = tidySlots(
    slotsByHand,
    job.frames.map(({ id }) => id),
    job.viewSlots,
  );
  return tidy === undefined ? rest : { ...rest, slotsByHand: tidy };
};

/** Replaces the sequence. A job that has had frames waits for no demo's. */
export const layFrames = ({ framesOf: _waited, ...job }: Job, frames: readonly Frame[]): Job =>
  withSlots({ ...job, frames: [...frames] }, job.slotsByHand);

const sameOrder = (a: readonly Frame[], b: readonly Frame[]): boolean =>
  a.length === b.length && a.every((frame, index) => frame === b[index]);

const reordered = (job: Job, frames: readonly Frame[]): Job =>
  sameOrder(job.frames, frames) ? job : layFrames(job, frames);

export const addFrames = (job: Job, added: readonly Frame[]): Job =>
  added.length === 0 ? job : layFrames(job, insertInOrder(job.frames, added));

/** @returns the same job if the frame before is no longer there */
export const insertAfter = (job: Job, id: string, added: readonly Frame[]): Job => {
  const at = job.frames.findIndex((frame) => frame.id === id) + 1;
  if (at === 0 || added.length === 0) return job;
  return layFrames(job, [...job.frames.slice(0, at), ...added, ...job.frames.slice(at)]);
};

export const removeFrames = (job: Job, ids: ReadonlySet<string>): Job => {
  const left = job.frames.filter(({ id }) => !ids.has(id));
  return left.length === job.frames.length ? job : layFrames(job, left);
};

export const sortFrames = (job: Job): Job => reordered(job, inNaturalOrder(job.frames));

/** Puts the frames, in their present order, before or after another one. */
export const moveFrames = (
  job: Job,
  ids: ReadonlySet<string>,
  target: string,
  side: 'before' | 'after',
): Job => {
  const moved = job.frames.filter(({ id }) => ids.has(id));
  const others = job.frames.filter(({ id }) => !ids.has(id));
  const at = others.findIndex(({ id }) => id === target);
  if (at < 0 || moved.length === 0) return job;
  const split = side === 'before' ? at : at + 1;
  return reordered(job, [...others.slice(0, split), ...moved, ...others.slice(split)]);
};

/** Moves each of the frames one place. Those at the end stay, and so do frames right behind them. */
export const stepFrames = (job: Job, ids: ReadonlySet<string>, step: -1 | 1): Job => {
  const frames = step < 0 ? [...job.frames] : [...job.frames].reverse();
  for (let index = 1; index < frames.length; index++) {
    const [before, frame] = [frames[index - 1] as Frame, frames[index] as Frame];
    if (ids.has(frame.id) && !ids.has(before.id))
      [frames[index - 1], frames[index]] = [frame, before];
  }
  return reordered(job, step < 0 ? frames : frames.reverse());
};

/** Chooses the frame for one slot, counted from 0; with `''` the slot follows the even spread. */
export const chooseSlot = (job: Job, slot: number, frameId: string): Job => {
  if (frameId === (job.slotsByHand?.[slot] ?? '')) return job;
  const chosen = Array.from({ length: job.viewSlots }, (_, at) =>
    at === slot ? frameId : (job.slotsByHand?.[at] ?? ''),
  );
  return withSlots(job, chosen);
};

export const spreadEvenly = (job: Job): Job =>
  job.slotsByHand === undefined ? job : withSlots(job, undefined);

/** For each frame id, the slots (counted from 0) that show it, alone or in a mix. */
export const slotsByFrame = (job: Job): Map<string, number[]> => {
  const slots = new Map<string, number[]>();
  slotsOf(job).forEach(({ parts }, slot) => {
    for (const { frame } of parts) slots.set(frame, [...(slots.get(frame) ?? []), slot]);
  });
  return slots;
};
