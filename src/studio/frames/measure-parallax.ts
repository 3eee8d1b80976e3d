/** Runs the measurement: one at a time, coarse first; what it finds is shown as it comes. */
import type { PairMotion } from '../../core/frames/parallax/pair.ts';
import { openFrame } from '../../files/frame-store.ts';
import { keepParallax } from '../../files/parallax-store.ts';
import type { Job } from '../../job/schema/job.ts';
import { parallaxKeyOf, sequenceOf } from '../../job/facts/parallax.ts';
import { measureSequence } from '../../calls/parallax.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { keepWithRoom } from '../keep/no-room.ts';
import { announce } from './live.ts';

/** Wide enough to tell a fiftieth of a lenticule on most lenses, small enough to be quick. */
const MATCHED_PX = 800;

let halt = new AbortController();

export const stopMeasuring = (): void => halt.abort();

const sizeOf = ({ ribs, frames: [first] }: Job): { widthPx: number; heightPx: number } => {
  const { widthPx, heightPx } = first ?? { widthPx: 1, heightPx: 1 };
  const scale = Math.min(1, MATCHED_PX / (ribs === 'upright' ? widthPx : heightPx));
  return { widthPx: Math.round(widthPx * scale), heightPx: Math.round(heightPx * scale) };
};

const measure = async (job: Job, signal: AbortSignal): Promise<void> => {
  const key = parallaxKeyOf(job);
  const pairs: (PairMotion | undefined)[] = sequenceOf(job)
    .slice(1)
    .map(() => undefined);
  const fine = new Set<number>();
  const { set } = workStore.getState();
  set({ parallax: { key, pairs: [...pairs], votes: undefined } });
  const frames = await Promise.all(
    sequenceOf(job).map(async ({ id, name }) => ({
      key: id,
      name,
      file: await openFrame(id, name),
    })),
  );
  const options = { exposureStops: job.exposureStops };
  const outcome = await measureSequence(
    frames,
    { options, ribs: job.ribs, ...sizeOf(job) },
    {
      signal,
      onPair: (index, motion, isFine) => {
        if (signal.aborted || (fine.has(index) && !isFine)) return;
        if (isFine) fine.add(index);
        pairs[index] = motion;
        set({ parallax: { key, pairs: [...pairs], votes: undefined } });
      },
      onProgress: (done, total) => {
        if (!signal.aborted) set({ measuring: { done, total } });
      },
    },
  );
  if (!outcome.done) return;
  const whole = {
    key,
    pairs: pairs.filter((pair) => pair !== undefined),
    votes: outcome.value,
  };
  set({ parallax: whole, wholeParallax: whole });
  // Where the browser keeps nothing it lasts as long as the page, and is soon measured again.
  keepWithRoom('the measured parallax', () => keepParallax(whole)).catch(() => undefined);
  announce('The parallax is measured.');
};

/** Measures the sequence as it stands, and lets go of a measurement under way. */
export const startMeasuring = async (): Promise<void> => {
  halt.abort();
  halt = new AbortController();
  const { signal } = halt;
  const { job } = documentStore.getState();
  if (sequenceOf(job).length < 2) return;
  const { set } = workStore.getState();
  set({ measuring: { done: 0, total: 2 * sequenceOf(job).length } });
  try {
    await measure(job, signal);
  } catch (error) {
    if (!signal.aborted) {
      const fault = error instanceof Error ? error.message : String(error);
      set({ parallax: { key: parallaxKeyOf(job), pairs: [], votes: undefined, fault } });
    }
  } finally {
    if (halt.signal === signal) set({ measuring: undefined });
  }
};
