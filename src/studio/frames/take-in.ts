/** Looks at files and keeps those that are pictures: from candidates to frames of a job. */
import { toWorkError } from '../../contract/errors.ts';
import type { Arrival } from '../../files/arrivals.ts';
import { frameStore } from '../../files/frame-store.ts';
import { newId } from '../../files/new-id.ts';
import type { Frame } from '../../job/schema/job.ts';
import { lookAt } from '../../calls/frames.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { frameFoundNoRoom } from '../keep/no-room.ts';
import { originalLost } from './original-lost.ts';
import { isNoRoom } from '../../files/room.ts';
import { dismissProblemsOf, noteInPassing, noteProblem } from './notes.ts';
import { showThumbnail } from './thumbnails.ts';

/** A frame of the job that lost its original, when this is the very picture: it takes it back. */
const giveBack = (
  file: Blob,
  name: string,
  { thumbnail, fingerprint }: { readonly thumbnail: Blob; readonly fingerprint: string },
): boolean => {
  const { missingOriginals, prepareFaults, set } = workStore.getState();
  const lost = documentStore
    .getState()
    .job.frames.find(
      (frame) =>
        missingOriginals.has(frame.id) &&
        (frame.fingerprint === undefined
          ? frame.name === name && frame.byteLength === file.size
          : frame.fingerprint === fingerprint),
    );
  if (lost === undefined) return false;
  copyBehind(lost.id, lost.name, file, thumbnail);
  showThumbnail(lost.id, thumbnail);
  set({
    missingOriginals: new Set([...missingOriginals].filter((id) => id !== lost.id)),
    // It is prepared anew; a weave asked for until then waits for it.
    prepareFaults: new Map([...prepareFaults].filter(([id]) => id !== lost.id)),
  });
  dismissProblemsOf(lost.name);
  noteInPassing('The job has its original back.', lost.name);
  return true;
};

/** Written behind: a full disk is told about, but does not hold the frame up. */
export const copyBehind = (id: string, name: string, file: Blob, thumbnail: Blob): void => {
  frameStore.keep(id, name, file, thumbnail).catch((error: unknown) => {
    noteProblem(toWorkError(error).message, name);
    if (isNoRoom(error)) frameFoundNoRoom(name);
    if (toWorkError(error).code === 'file-gone') originalLost(id);
  });
};

/** So that a folder can be added again while it fills: what it held before stays as it lies. */
const isHere = (name: string, byteLength: number, fingerprint: string): boolean =>
  documentStore
    .getState()
    .job.frames.some(
      (frame) =>
        frame.name === name && frame.byteLength === byteLength && frame.fingerprint === fingerprint,
    );

const takeOne = async (
  { file }: Arrival,
  name: string,
  exposureStops: number,
  signal: AbortSignal,
  onHere?: () => void,
): Promise<Frame | undefined> => {
  const outcome = await lookAt(file, name, { exposureStops }, { signal });
  if (!outcome.done) return undefined;
  const { widthPx, heightPx, kind, sceneLinear, profile, thumbnail, meanLight, fingerprint } =
    outcome.value;
  if (giveBack(file, name, outcome.value)) return undefined;
  if (onHere !== undefined && isHere(name, file.size, fingerprint)) {
    noteInPassing('It is in the job already, pixel for pixel, so it was not added again.', name);
    onHere();
    return undefined;
  }
  const id = newId();
  copyBehind(id, name, file, thumbnail);
  showThumbnail(id, thumbnail);
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

/**
 * @param names what to call each of the arrivals, same length.
 * @param onHere when given, files that the job has already are passed over, and told of by it.
 * @returns the frames that are good, in the order of the arrivals; a note is left for each other, and
 *   for those that were a lost original of the job and have gone back to it.
 */
export const takeIn = async (
  arrivals: readonly Arrival[],
  names: readonly string[],
  exposureStops: number,
  signal: AbortSignal,
  onHere?: () => void,
): Promise<Frame[]> => {
  const taken = await Promise.all(
    arrivals.map(async (arrival, index) => {
      const name = names[index] ?? arrival.name;
      try {
        return await takeOne(arrival, name, exposureStops, signal, onHere);
      } catch (error) {
        noteProblem(error instanceof Error ? error.message : String(error), name);
        return undefined;
      } finally {
        const { arriving, set } = workStore.getState();
        if (arriving !== undefined && !signal.aborted)
          set({ arriving: { ...arriving, done: arriving.done + 1 } });
      }
    }),
  );
  return taken.filter((frame) => frame !== undefined);
};
