/** The pictures of a job in the frame store, by id. */
import type { Job } from '../schema/job.ts';

/** Ids of the pictures that show where made frames were filled; each once. */
export const holesIdsOf = ({ frames }: Job): string[] => [
  ...new Set(frames.flatMap(({ made }) => made?.holesId ?? [])),
];

/** How many of a job's files are no pictures of its own: filled places, and the scene. */
export const besidesPictures = (job: Job): number =>
  holesIdsOf(job).length + (job.stage === undefined ? 0 : 1);

/**
 * Ids of everything in the frame store that the job needs, each once. A picture that is not listed here is deleted as
 * unused.
 */
export const pixelIdsOf = (job: Job): string[] => [
  ...new Set([
    ...job.frames.map(({ id }) => id),
    ...(job.trials ?? []).flatMap(({ photoId }) => photoId ?? []),
    ...holesIdsOf(job),
    ...(job.stage === undefined ? [] : [job.stage.sceneId]),
  ]),
];

/** The job without pictures of filled places that are missing. It does not need them. */
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

/** Every text in a document of unknown form: among them are the ids of its pictures. */
export const textsIn = (document: unknown): string[] => {
  if (typeof document === 'string') return [document];
  if (typeof document !== 'object' || document === null) return [];
  return Object.values(document).flatMap(textsIn);
};
