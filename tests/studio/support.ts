/** A studio for one test, with stores of its own and a job open in it. */
import { createFrameStore } from '../../src/files/frame-store.ts';
import { openMemoryShelf } from '../../src/files/shelves.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { StudioDeps } from '../../src/studio/floor.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { createStudio } from '../../src/studio/studio.ts';

/**
 * Its frames are in memory. Its jobs are too, unless the test has an `indexedDB`, as pages of one browser
 * share it: then two studios are two tabs.
 */
export const makeStudio = (deps: StudioDeps = {}): Studio => {
  const studio = createStudio({
    frames: createFrameStore(() => Promise.resolve(openMemoryShelf())),
    ...deps,
  });
  studio.document.getState().open(newJob(), { jobId: 'a-job' });
  return studio;
};
