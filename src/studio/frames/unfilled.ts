/**
 * A copy of a demo that was changed before the demo's frames had come, and then left: they are fetched when it is
 * opened again, and for a step of undo that has none.
 */
import type { DocumentState } from '../../state/document.ts';
import type { Studio } from '../studio.ts';

/** Which demo's frames the open job waits for, if nothing brings them yet. */
const awaited = (
  { job, lookOnly, jobId }: DocumentState,
  { tasks }: Studio,
): string | undefined => {
  if (lookOnly !== undefined || job.frames.length > 0) return undefined;
  const { running } = tasks.store.getState();
  const comes = running.some((task) => task.kind === 'demo' && task.jobId === jobId);
  return comes ? undefined : job.framesOf;
};

/** Returns what ends the watch. */
export const fillWhatWaits = (studio: Studio): (() => void) => {
  const { document } = studio;
  /** Jobs whose frames could not be had: they are asked for again when the page is loaded anew. */
  const failed = new Set<string>();
  const look = (state: DocumentState): void => {
    const { jobId } = state;
    const name = failed.has(jobId) ? undefined : awaited(state, studio);
    if (name === undefined) return;
    failed.add(jobId);
    void import('./demos.ts')
      .then(({ fillCopy }) => fillCopy(studio, name))
      .then(() => {
        const now = document.getState();
        if (now.jobId !== jobId || now.job.frames.length > 0) failed.delete(jobId);
      })
      .catch(() => studio.tell('The demo’s frames could not be fetched. Reload the page.'));
  };
  look(document.getState());
  return document.subscribe((now, before) => {
    if (now.job !== before.job || now.lookOnly !== before.lookOnly) look(now);
  });
};
