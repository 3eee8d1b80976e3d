/** What a file of one job is woven from, whatever becomes of the open job meanwhile. */
import type { FrameStack } from '../../contract/weave.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Conversion } from '../colour/conversion.ts';
import { checkHolds, conversionOf } from '../colour/conversion.ts';
import { untilPrepared } from '../prepare/until-prepared.ts';
import type { Studio } from '../studio.ts';
import type { FileSet } from './weave-file.ts';

export interface JobFrames {
  readonly stack: FrameStack;
  /** Left out: the file is sRGB. */
  readonly conversion: Conversion | undefined;
}

/** @throws StudioError where the file type cannot hold the job's colours */
export const framesOfJob = (
  studio: Studio,
  job: Job,
  fileType: SheetFileType,
): Required<Pick<FileSet<JobFrames>, 'prepare' | 'letGo'>> => {
  checkHolds(job, fileType);
  let letGo: (() => void) | undefined;
  return {
    prepare: async (signal) => {
      const conversion = await conversionOf(studio, job, signal);
      if (conversion === 'stopped') return undefined;
      const prepared = await untilPrepared(studio, job, signal);
      letGo = prepared?.letGo;
      return prepared && { stack: prepared.stack, conversion };
    },
    letGo: () => letGo?.(),
  };
};
