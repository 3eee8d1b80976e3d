/** Edits that carry a consequence: what else must follow when a field of the job changes. */
import type { Job } from './job.ts';

/** A proved pitch holds for one lens, one printer setting and one way round; else it is let go. */
const unproved = (job: Job): Job => {
  if (job.provedPitch === undefined) return job;
  const { provedPitch: _letGo, ...rest } = job;
  return rest;
};

export const setLensPitch = (job: Job, pitchMm: number): Job =>
  pitchMm === job.lens.pitchMm ? job : { ...unproved(job), lens: { ...job.lens, pitchMm } };

export const setRibs = (job: Job, ribs: Job['ribs']): Job =>
  ribs === job.ribs ? job : { ...unproved(job), ribs };

export const setDensity = (job: Job, change: Partial<Job['printer']>): Job => {
  const printer = { ...job.printer, ...change };
  return { ...(printer.acrossDpi === job.printer.acrossDpi ? job : unproved(job)), printer };
};

/** Slots filled by hand belong to their number of slots; another number is spread afresh. */
export const setViewSlots = (job: Job, viewSlots: number): Job => {
  if (viewSlots === job.viewSlots) return job;
  const { slotsByHand: _letGo, ...rest } = job;
  return { ...rest, viewSlots };
};

/** A radius that is not known is left out, not kept empty. */
export const setRadius = (job: Job, radiusMm: number | undefined): Job => {
  const { radiusMm: _before, ...lens } = job.lens;
  return { ...job, lens: radiusMm === undefined ? lens : { ...lens, radiusMm } };
};

export const setDepthGain = (job: Job, depthGain: number): Job => ({ ...job, depthGain });
