/** A title over the print: how far it moves from slot to slot, and how much room that takes. */
import { pictureArea } from '../../core/weave/picture-area.ts';
import type { PictureArea } from '../../core/weave/picture-area.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { Typed } from '../schema/typed.ts';
import { ribsAcross, titleFrameOf } from './sheet.ts';

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

/** A typed title has its stated size and place, whatever the print and the title's depth are. */
const typedArea = (
  { print: { widthMm, heightMm } }: Job,
  { widthPx, heightPx }: Frame,
  { rightMm, downMm, pxPerMm }: Typed,
): PictureArea => ({
  left: widthPx / 2 - (widthMm / 2 + rightMm) * pxPerMm,
  top: heightPx / 2 - (heightMm / 2 + downMm) * pxPerMm,
  width: widthMm * pxPerMm,
  height: heightMm * pxPerMm,
});

/**
 * The print's outline on the title's picture. A picture is shown whole, and smaller by the room for its motion, so
 * that no part of it leaves the print.
 */
export const titleAreaOf = (job: Job, frame: Frame): PictureArea => {
  if (frame.typed !== undefined) return typedArea(job, frame, frame.typed);
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

/** What was typed, where the title was. */
export const typedOf = (job: Job): Typed | undefined => titleFrameOf(job)?.typed;

/**
 * Rows to a millimetre that a typed title is kept in: a third of the finest rib's width or less, and no finer than the
 * sharpest eye sees from 50 cm.
 */
const ROWS_PER_MM = 6;

/** Samples along the ribs that the letters need; 0 for any other title. */
export const typedSamplesAlong = (job: Job): number => {
  if (typedOf(job) === undefined) return 0;
  const { widthMm, heightMm } = job.print;
  return Math.round(ROWS_PER_MM * (job.ribs === 'upright' ? heightMm : widthMm));
};

/** A capital needs seven rows and five columns: the 5 × 7 letters of dot-matrix type, common practice. */
const RIBS_PER_CAPITAL = 7;

/**
 * Height of the smallest capitals that the lens still shows: each rib shows one place of each view; what moves more than
 * one rib per view has only p / |s| of that (relation 6).
 */
export const smallestCapMm = ({ lens, ribs, title }: Job): number =>
  RIBS_PER_CAPITAL *
  lens.pitchMm *
  Math.max(1, ribs === 'upright' ? Math.abs(title?.step ?? 0) : 0);

/** How far a typed title reaches past the print, mm, in the view where it does so most; 0: nowhere. */
export const typedPastMm = (job: Job): number => {
  const frame = titleFrameOf(job);
  if (frame?.typed === undefined) return 0;
  const { rightMm, downMm, pxPerMm } = frame.typed;
  const { widthMm, heightMm } = job.print;
  const slide = titleTravel(job) * job.lens.pitchMm;
  const past = (middle: number, px: number, size: number) =>
    Math.abs(middle) + (px / pxPerMm - size) / 2;
  return Math.max(
    0,
    past(rightMm, frame.widthPx, widthMm) + slide,
    past(downMm, frame.heightPx, heightMm),
  );
};

/** Sets another title; undefined removes it. The picture of a typed title goes with it. */
export const setTitle = (job: Job, title: Job['title']): Job => {
  const { title: before, ...rest } = job;
  if (before?.frame === title?.frame && before?.step === title?.step) return job;
  const typed = before?.frame === title?.frame ? undefined : titleFrameOf(job);
  const frames =
    typed?.typed === undefined ? job.frames : job.frames.filter((frame) => frame !== typed);
  return { ...rest, frames, ...(title === undefined ? {} : { title }) };
};
