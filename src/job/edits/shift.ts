/** Shifts of the print's outline over the frames, and of the key plane. */
import { setKeyShift } from './consequences.ts';
import type { JobEdit } from './edit.ts';

/** Rounded to hundredths, never −0: finer than any slider moves. */
export const toHundredths = (value: number): number => Math.round(value * 100) / 100 + 0;

const within = (shift: number): number => toHundredths(Math.max(-1, Math.min(1, shift)));

/** An axis without a value stays as it is. */
export const shiftPicture = (x: number | undefined, y: number | undefined): JobEdit => [
  'shift of the picture',
  (job) => {
    const { shiftX, shiftY } = job.placement;
    const to = {
      shiftX: x === undefined ? shiftX : within(x),
      shiftY: y === undefined ? shiftY : within(y),
    };
    const same = to.shiftX === shiftX && to.shiftY === shiftY;
    return same ? job : { ...job, placement: { ...job.placement, ...to } };
  },
  'placement.shift',
];

/**
 * The shift after a drag: `room` is what the frame leaves beside the print along this axis, in frame
 * pixels, negative when the print reaches beyond the frame. Undefined without room.
 */
export const draggedShift = (start: number, dragPx: number, room: number): number | undefined =>
  Math.abs(room) < 1 ? undefined : start + (2 * dragPx) / Math.abs(room);

/** @param shift in ribs from one frame to the next, counted from the key plane the frames came with. */
export const moveKeyPlane = (shift: number): JobEdit => [
  'key plane',
  (job) => setKeyShift(job, toHundredths(shift)),
  'keyShift',
];
