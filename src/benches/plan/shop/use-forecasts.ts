/** Forecasts of the open job and of kept ones, refined by the sheets that were woven in this visit. */
import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { Job } from '../../../job/schema/job.ts';
import type { Forecast } from '../../../materials/shop.ts';
import { forecastOf, wovenSheetOf } from '../../../materials/shop.ts';
import type { SheetFileType } from '../../../core/encode/file-types.ts';
import { stateIn } from '../../../state/tasks.ts';
import { useOtherJobs } from '../../desk/use-other-jobs.ts';
import { useDocument, useJob, useShelves, useStudio } from '../../studio.ts';

/** By id, the open one first; undefined until the kept ones have been read. */
export const useJobsToCompare = (): ReadonlyMap<string, Job> | undefined => {
  const job = useJob();
  const jobId = useDocument((state) => state.jobId);
  const others = useOtherJobs();
  return useMemo(() => others && new Map([[jobId, job], ...others]), [job, jobId, others]);
};

export const useForecasts = (
  jobs: ReadonlyMap<string, Job>,
  chosen: readonly string[],
  fileType: SheetFileType,
): readonly Forecast[] => {
  const shelves = useShelves((state) => state.shelves);
  const tasks = useStore(useStudio().tasks.store);
  return useMemo(() => {
    const woven = new Map(
      [...jobs].flatMap(([id, job]) => {
        const state = stateIn(tasks, id, 'sheet');
        const [file] = state.stage === 'woven' && !state.stale ? state.files : [];
        if (state.stage !== 'woven' || file === undefined) return [];
        const sheet = wovenSheetOf(job, file, state.seconds);
        return sheet === undefined ? [] : [[id, sheet] as const];
      }),
    );
    const setting = { shelves, fileType, here: [...woven.values()] };
    return chosen.flatMap((id) => {
      const job = jobs.get(id);
      return job === undefined ? [] : [forecastOf(job, setting, woven.get(id))];
    });
  }, [jobs, chosen, fileType, shelves, tasks]);
};
