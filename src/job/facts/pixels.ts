/** Parts of a job that are not in its document: pictures in the frame store, by id. */
import type { Job } from '../schema/job.ts';

/** Of the small pictures that say where made frames were filled; each once. */
export const holesIdsOf = ({ frames }: Job): string[] => [
  ...new Set(frames.flatMap(({ made }) => made?.holesId ?? [])),
];

/**
 * Ids of everything in the frame store that the job needs, each once. Whatever the job comes to name
 * there must be listed here, or it is deleted as unused.
 */
export const pixelIdsOf = (job: Job): string[] => [
  ...new Set([
    ...job.frames.map(({ id }) => id),
    ...(job.trials ?? []).flatMap(({ photoId }) => photoId ?? []),
    ...holesIdsOf(job),
  ]),
];

/** The job without pictures of filled places that are not stored: it does not need them, and the bench says they are missing. */
export const withHolesThatAre = (job: Job, isThere: (id: string) => boolean): Job =>
  holesIdsOf(job).every(isThere)
    ? job
    : {
        ...job,
        frames: job.frames.map((frame) => {
          if (frame.made?.holesId === undefined || isThere(frame.made.holesId)) return frame;
          const { holesId: _gone, ...made } = frame.made;
          return { ...frame, made };
        }),
      };

/** Every text in a document of unknown form, at any depth: among them are the ids of its pictures. */
export const textsIn = (document: unknown): string[] => {
  if (typeof document === 'string') return [document];
  if (typeof document !== 'object' || document === null) return [];
  return Object.values(document).flatMap(textsIn);
};
