/** Sliding the print's outline over the frames. */
import type { Job } from '../schema/job.ts';
import { documentStore } from '../../state/document.ts';

type Shift = Partial<Pick<Job['placement'], 'shiftX' | 'shiftY'>>;

/** To hundredths: finer than any slider is moved, and a number that can be read. */
const tidy = (shift: number): number => Math.round(Math.max(-1, Math.min(1, shift)) * 100) / 100;

export const shiftChange = (x: number | undefined, y: number | undefined): Shift => ({
  ...(x === undefined ? {} : { shiftX: tidy(x) }),
  ...(y === undefined ? {} : { shiftY: tidy(y) }),
});

export const setShift = (shift: Shift): void =>
  documentStore.getState().change(
    'shift of the picture',
    (job) => {
      const placement = { ...job.placement, ...shift };
      const same =
        placement.shiftX === job.placement.shiftX && placement.shiftY === job.placement.shiftY;
      return same ? job : { ...job, placement };
    },
    'placement.shift',
  );

/**
 * The shift after a drag: `room` is what the frame leaves beside the print along this axis, in frame
 * pixels, negative when the print reaches beyond the frame. Undefined without room.
 */
export const draggedShift = (start: number, dragPx: number, room: number): number | undefined =>
  Math.abs(room) < 1 ? undefined : start + (2 * dragPx) / Math.abs(room);
