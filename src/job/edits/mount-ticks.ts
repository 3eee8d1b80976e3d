/** Which steps of mounting are done: ids, kept with the job. */
import type { Job } from '../schema/job.ts';
import type { MountStep } from '../facts/mount/step.ts';

export const isTicked = (job: Job, id: string): boolean => job.mountTicks?.includes(id) ?? false;

export const ticksAmong = (job: Job, steps: readonly MountStep[]): number =>
  steps.filter(({ id }) => isTicked(job, id)).length;

/** An empty list of ticks is left out of the job. */
export const setTick = (job: Job, id: string, on: boolean): Job => {
  if (isTicked(job, id) === on) return job;
  const { mountTicks = [], ...rest } = job;
  const ticks = on ? [...mountTicks, id] : mountTicks.filter((other) => other !== id);
  return ticks.length === 0 ? rest : { ...rest, mountTicks: ticks };
};

export const clearTicks = (job: Job): Job => {
  const { mountTicks, ...rest } = job;
  return mountTicks === undefined ? job : rest;
};
