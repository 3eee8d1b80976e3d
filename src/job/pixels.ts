/** What of a job lies outside its document: pictures in the frame store, by id. */
import type { Job } from './job.ts';

/**
 * Ids of everything in the frame store that the job needs. Whatever the job comes to name there must
 * be told here, or it is swept with what belongs to nobody.
 */
export const pixelIdsOf = (job: Job): string[] => [
  ...job.frames.map(({ id }) => id),
  ...(job.trials ?? []).flatMap(({ photoId }) => photoId ?? []),
];

/** Every text in a document of unknown form, at any depth: among them are the ids of its pictures. */
export const textsIn = (document: unknown): string[] => {
  if (typeof document === 'string') return [document];
  if (typeof document !== 'object' || document === null) return [];
  return Object.values(document).flatMap(textsIn);
};
