import { useMemo } from 'react';
import { useStudio } from '../../studio.ts';

/** Saves the job to a file, and opens one as a job of its own. Each is loaded when it is first wanted. */
export const useSaveAndOpen = () => {
  const studio = useStudio();
  return useMemo(
    () => ({
      /** @param anew asks for a file also where one was chosen before. */
      save: async (anew: boolean): Promise<void> => {
        const { saveJobFile } = await import('../../../studio/keep/job-file/save.ts');
        await saveJobFile(studio, anew);
      },
      open: async (file: File): Promise<void> => {
        const { openJobFile } = await import('../../../studio/keep/job-file/open.ts');
        await openJobFile(studio, file);
      },
    }),
    [studio],
  );
};
