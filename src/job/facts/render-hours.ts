/** Hours to render frames of the job, from the one that was timed (Shoot). */
import type { FrameSize } from '../../core/plan/render-plan.ts';
import { hoursFor } from '../../core/plan/render-plan.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Job } from '../schema/job.ts';
import { plannedFrame } from './rig.ts';

/** Undefined as long as no frame is timed. @param size, frames left out: as planned */
export const renderHoursOf = (
  job: Job,
  size: FrameSize = plannedFrame(job),
  frames: number = job.viewSlots,
): number | undefined => {
  const { frameHours, timedWidthPx, timedHeightPx } = job.rig ?? {};
  if (frameHours === undefined) return undefined;
  const planned = plannedFrame(job);
  return hoursFor(size, frames, {
    hours: frameHours,
    widthPx: timedWidthPx ?? planned.widthPx,
    heightPx: timedHeightPx ?? planned.heightPx,
  });
};

export const sayRenderHours = (hours: number | undefined): string => {
  if (hours === undefined) return 'not timed yet';
  return hours < 1 ? `${trimmed(hours * 60, 1)} min` : `${trimmed(hours, 1)} h`;
};
