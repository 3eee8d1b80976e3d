/** Looks at files and keeps those that are pictures: from candidates to frames of a job. */
import { lookAt } from '../../calls/frames.ts';
import { toWorkError } from '../../contract/errors.ts';
import { newId } from '../../files/new-id.ts';
import { isNoRoom } from '../../files/room.ts';
import type { Frame } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { originalLost } from './original-lost.ts';

/** A file that may be a picture, and what its frame is to be called. */
interface Candidate {
  readonly name: string;
  readonly file: Blob;
}

interface Setting {
  readonly exposureStops: number;
  readonly signal: AbortSignal;
  /** Files that the job has already are passed over, so that a folder can be added again while it fills. */
  readonly newOnly?: boolean;
}

interface TakenIn {
  /** Those that are good and new, in the order of the files. */
  readonly frames: Frame[];
  /** How many the job has already. */
  readonly here: number;
  /** How many were a lost original of the job, and have gone back to it. */
  readonly back: number;
}

/** Written behind: a full disk is told about, but does not hold the frame up. */
export const copyBehind = (
  studio: Studio,
  id: string,
  name: string,
  file: Blob,
  thumbnail: Blob,
): void => {
  studio.disk.frames.keep(id, name, file, thumbnail).catch((error: unknown) => {
    const { code, message } = toWorkError(error);
    studio.notes.problem(message, name);
    if (isNoRoom(error)) studio.room.frameFoundNone(name);
    if (code === 'file-gone') originalLost(studio, id);
  });
};

/** A frame of the job that lost its original, when this is the very picture: it takes it back. */
const giveBack = (
  studio: Studio,
  { name, file }: Candidate,
  { thumbnail, fingerprint }: { readonly thumbnail: Blob; readonly fingerprint: string },
): boolean => {
  const { document, work, notes } = studio;
  const { missingOriginals, prepareFaults, set } = work.getState();
  const lost = document
    .getState()
    .job.frames.find(
      (frame) =>
        missingOriginals.has(frame.id) &&
        (frame.fingerprint === undefined
          ? frame.name === name && frame.byteLength === file.size
          : frame.fingerprint === fingerprint),
    );
  if (lost === undefined) return false;
  copyBehind(studio, lost.id, lost.name, file, thumbnail);
  studio.thumbnails.show(lost.id, thumbnail);
  set({
    missingOriginals: new Set([...missingOriginals].filter((id) => id !== lost.id)),
    // It is prepared anew; a weave asked for until then waits for it.
    prepareFaults: new Map([...prepareFaults].filter(([id]) => id !== lost.id)),
  });
  notes.dismissProblemsOf(lost.name);
  notes.inPassing('The job has its original back.', lost.name);
  return true;
};

const isHere = (
  { document }: Studio,
  { name, file }: Candidate,
  { fingerprint }: { readonly fingerprint: string },
): boolean =>
  document
    .getState()
    .job.frames.some(
      (frame) =>
        frame.name === name && frame.byteLength === file.size && frame.fingerprint === fingerprint,
    );

const takeOne = async (
  studio: Studio,
  candidate: Candidate,
  { exposureStops, signal, newOnly = false }: Setting,
): Promise<Frame | 'here' | 'back' | undefined> => {
  const { name, file } = candidate;
  const outcome = await lookAt(file, name, { exposureStops }, { signal });
  if (!outcome.done) return undefined;
  const { widthPx, heightPx, kind, sceneLinear, profile, thumbnail, meanLight, fingerprint } =
    outcome.value;
  if (giveBack(studio, candidate, outcome.value)) return 'back';
  if (newOnly && isHere(studio, candidate, outcome.value)) {
    studio.notes.inPassing(
      'It is in the job already, pixel for pixel, so it was not added again.',
      name,
    );
    return 'here';
  }
  const id = newId();
  copyBehind(studio, id, name, file, thumbnail);
  studio.thumbnails.show(id, thumbnail);
  return {
    id,
    name,
    byteLength: file.size,
    widthPx,
    heightPx,
    kind,
    sceneLinear,
    ...(profile === undefined ? {} : { profile }),
    meanLight,
    fingerprint,
  };
};

/** Leaves a note for each file that does not become a new frame, unless it was stopped. */
export const takeIn = async (
  studio: Studio,
  candidates: readonly Candidate[],
  setting: Setting,
): Promise<TakenIn> => {
  const taken = await Promise.all(
    candidates.map(async (candidate) => {
      try {
        return await takeOne(studio, candidate, setting);
      } catch (error) {
        studio.notes.problem(toWorkError(error).message, candidate.name);
        return undefined;
      } finally {
        const { arriving, set } = studio.work.getState();
        if (arriving !== undefined && !setting.signal.aborted)
          set({ arriving: { ...arriving, done: arriving.done + 1 } });
      }
    }),
  );
  return {
    frames: taken.filter((one) => typeof one === 'object'),
    here: taken.filter((one) => one === 'here').length,
    back: taken.filter((one) => one === 'back').length,
  };
};
