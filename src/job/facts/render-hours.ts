/** Hours to render the job's frames, from the one that was timed (Shoot). */
import { hoursFor } from '../../core/plan/render-plan.ts';
import type { Job } from '../schema/job.ts';
import { plannedFrame } from './rig.ts';

/** Undefined as long as no frame is timed. */
export const renderHoursOf = (job: Job): number | undefined => {
  const planned = plannedFrame(job);
  const { frameHours, timedWidthPx, timedHeightPx } = job.rig ?? {};
  if (frameHours === undefined) return undefined;
  return hoursFor(planned, job.viewSlots, {
    hours: frameHours,
    widthPx: timedWidthPx ?? planned.widthPx,
    heightPx: timedHeightPx ?? planned.heightPx,
  });
};
