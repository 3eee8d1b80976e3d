/** A title over the print: how far it moves from slot to slot, and how much room that takes. */
import { pictureArea } from '../../core/weave/picture-area.ts';
import type { PictureArea } from '../../core/weave/picture-area.ts';
import type { Frame, Job } from '../schema/job.ts';
import { ribsAcross } from './sheet.ts';

/** The title may move at most this share of the print's size to either side, or it would become too small. */
const MOST_TRAVEL = 0.25;

/** Lenticules that the title moves to either side of the middle; 0 under lying ribs, which show no depth. */
export const titleTravel = (job: Job): number => {
  if (job.title === undefined || job.ribs !== 'upright') return 0;
  const travel = (Math.abs(job.title.step) * (job.viewSlots - 1)) / 2;
  return Math.min(travel, MOST_TRAVEL * ribsAcross(job));
};

/** The title's place in a view slot (from 0): lenticules to the right of the middle. */
export const titleShift = (job: Job, slot: number): number => {
  const middle = (job.viewSlots - 1) / 2;
  if (middle === 0 || job.title === undefined) return 0;
  return (Math.sign(job.title.step) * titleTravel(job) * (slot - middle)) / middle + 0;
};

/**
 * The print's outline on the title's picture. The title is shown whole, and smaller by the room for its motion, so
 * that no part of it leaves the print.
 */
export const titleAreaOf = (job: Job, frame: Frame): PictureArea => {
  const shape = job.print.widthMm / job.print.heightMm;
  const whole = pictureArea(frame.widthPx, frame.heightPx, shape, 'fit');
  const grow = 1 / (1 - (2 * titleTravel(job)) / ribsAcross(job));
  return {
    left: whole.left - ((grow - 1) * whole.width) / 2,
    top: whole.top - ((grow - 1) * whole.height) / 2,
    width: whole.width * grow,
    height: whole.height * grow,
  };
};

/** Sets another title; undefined removes it. */
export const setTitle = (job: Job, title: Job['title']): Job => {
  const { title: before, ...rest } = job;
  if (before?.frame === title?.frame && before?.step === title?.step) return job;
  return title === undefined ? rest : { ...rest, title };
};
