import { useEffect, useState } from 'react';
import type { KeptJobEntry } from '../../../files/job-store.ts';
import { jobStore, listJobs } from '../../../files/job-store.ts';
import { useWork } from '../../../state/hooks.ts';

export interface Kept {
  readonly jobs: readonly KeptJobEntry[];
  readonly bin: readonly KeptJobEntry[];
  /** Why nothing outlives the page; undefined where it does. */
  readonly memoryOnly: string | undefined;
}

/** Read anew whenever this tab or another has changed something. Undefined until the first answer. */
export const useKept = (): Kept | undefined => {
  const changes = useWork((work) => work.jobsChanged);
  const [kept, setKept] = useState<Kept>();
  useEffect(() => {
    let gone = false;
    void Promise.all([listJobs(), jobStore.listBin(), jobStore.whyMemoryOnly()]).then(
      ([jobs, bin, memoryOnly]) => {
        if (!gone) setKept({ jobs, bin, memoryOnly });
      },
      () => {
        if (!gone) setKept({ jobs: [], bin: [], memoryOnly: 'its storage does not answer' });
      },
    );
    return () => {
      gone = true;
    };
  }, [changes]);
  return kept;
};
