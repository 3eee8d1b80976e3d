/** Looks at files and keeps those that are pictures: from candidates to frames of a job. */
import type { Arrival } from '../../files/arrivals.ts';
import { frameStore } from '../../files/frame-store.ts';
import type { Frame } from '../../job/job.ts';
import { lookAt } from '../../jobs/frames.ts';
import { workStore } from '../../state/work.ts';
import { noteProblem } from './notes.ts';
import { showThumbnail } from './thumbnails.ts';

/** Unlike `crypto.randomUUID` this is there in insecure contexts too, such as a shop's own network. */
const newId = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(10)), (byte) =>
    byte.toString(16).padStart(2, '0'),
  ).join('');

const takeOne = async (
  { file }: Arrival,
  name: string,
  exposureStops: number,
  signal: AbortSignal,
): Promise<Frame | undefined> => {
  const outcome = await lookAt(file, name, { exposureStops }, { signal });
  if (!outcome.done) return undefined;
  const { widthPx, heightPx, kind, sceneLinear, profile, thumbnail, meanLight, fingerprint } =
    outcome.value;
  const id = newId();
  // Written behind: a full disk is told about, but does not hold the frame up.
  frameStore.keep(id, name, file, thumbnail).catch((error: unknown) => {
    noteProblem(error instanceof Error ? error.message : String(error), name);
  });
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
 * @returns the frames that are good, in the order of the arrivals; a note is left for each other.
 */
export const takeIn = async (
  arrivals: readonly Arrival[],
  names: readonly string[],
  exposureStops: number,
  signal: AbortSignal,
): Promise<Frame[]> => {
  const taken = await Promise.all(
    arrivals.map(async (arrival, index) => {
      const name = names[index] ?? arrival.name;
      try {
        return await takeOne(arrival, name, exposureStops, signal);
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
