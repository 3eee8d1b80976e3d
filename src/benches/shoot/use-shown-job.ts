/** The job as this bench shows it: while a grip of the top view is dragged, what would become of it. */
import { createContext, useContext } from 'react';
import type { Job } from '../../job/schema/job.ts';

interface Shown {
  readonly job: Job;
  /** Undefined puts back what is. */
  onDraft(job: Job | undefined): void;
}

export const ShownJob = createContext<Shown | undefined>(undefined);

export const useShownJob = (): Shown => {
  const shown = useContext(ShownJob);
  if (shown === undefined) throw new Error('No part of the Shoot bench stands alone.');
  return shown;
};
