/** Changes to the ghost removal, each a step to undo. A string says why a change is refused. */
import { MOST_LEAK } from '../../core/weave/ghost.ts';
import { PATCHES } from '../../core/weave/ghost-wedge.ts';
import { takePatch, withoutTrim } from '../facts/ghost.ts';
import type { GhostTrimOfJob } from '../schema/ghost.ts';
import type { Job } from '../schema/job.ts';
import type { JobEdit } from './edit.ts';

/** @param patch 1 … 16; a half lies between two */
export const readPatch = ({ ghostWedge }: Job, patch: number): JobEdit | string => {
  if (!(patch >= 1 && patch <= PATCHES))
    return `Patches are numbered 1 to ${PATCHES}; type 6.5 for one between 6 and 7.`;
  if (ghostWedge === undefined)
    return 'Weave a ghost wedge first: its patches say what the number means.';
  return ['ghost removal', (job) => takePatch(job, ghostWedge, patch)];
};

/** Sets a typed leak, whose ± is not known. @param leak 0 … 1 */
export const typeLeak = (leak: number): JobEdit | string => {
  if (!(leak >= 0 && leak <= MOST_LEAK))
    return `A leak is from 0 to ${100 * MOST_LEAK} %: more cannot be removed; use fewer view slots.`;
  return [
    'leak removed',
    (job) => {
      if (job.ghostTrim === undefined) return job;
      const { plusMinus: _, ...trim } = job.ghostTrim;
      return { ...job, ghostTrim: { ...trim, leak } };
    },
  ];
};

export const chooseContrast = (contrast: GhostTrimOfJob['contrast']): JobEdit => [
  'ghost removal contrast',
  (job) =>
    job.ghostTrim === undefined ? job : { ...job, ghostTrim: { ...job.ghostTrim, contrast } },
];

export const removeTrim = (): JobEdit => ['ghost removal', withoutTrim];
