/** The frames that a file of one job is woven from, whatever becomes of the open job meanwhile. */
import type { FrameStack } from '../../contract/weave.ts';
import type { Job } from '../../job/schema/job.ts';
import { untilPrepared } from '../prepare/until-prepared.ts';
import type { Studio } from '../studio.ts';
import type { FileSet } from './weave-file.ts';

export const framesOfJob = (
  studio: Studio,
  job: Job,
): Required<Pick<FileSet<FrameStack>, 'prepare' | 'letGo'>> => {
  let letGo: (() => void) | undefined;
  return {
    prepare: async (signal) => {
      const prepared = await untilPrepared(studio, job, signal);
      letGo = prepared?.letGo;
      return prepared?.stack;
    },
    letGo: () => letGo?.(),
  };
};
