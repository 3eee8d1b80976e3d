import { useCallback } from 'react';
import type { KeptJobEntry } from '../../../studio/keep/browser.ts';
import { useComing } from '../use-coming.ts';
import { useStudio, useWork } from '../../studio.ts';

export interface KeptJobs {
  readonly jobs: readonly KeptJobEntry[];
  readonly bin: readonly KeptJobEntry[];
  /** Why nothing outlives the page; undefined where it does. */
  readonly memoryOnly: string | undefined;
}

/** Read again whenever this tab or another has changed something. Undefined until the first answer. */
export const useKeptJobs = (): KeptJobs | undefined => {
  const { jobs: store } = useStudio().disk;
  const changes = useWork((work) => work.jobsChanged);
  const ask = useCallback(
    () =>
      Promise.all([store.listJobs(), store.listBin(), store.whyMemoryOnly()]).then(
        ([jobs, bin, memoryOnly]) => ({ jobs, bin, memoryOnly }),
        () => ({ jobs: [], bin: [], memoryOnly: 'its storage does not answer' }),
      ),
    [store],
  );
  return useComing(ask, changes);
};
