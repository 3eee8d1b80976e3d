/** Measures the parallax: one measurement at a time, coarse first. Results are shown as they come. */
import { measureSequence } from '../../calls/parallax.ts';
import { messageOf } from '../../contract/errors.ts';
import type { PairMotion } from '../../core/frames/parallax/pair.ts';
import { keepParallax } from '../../files/parallax-store.ts';
import { measuredArea } from '../../job/facts/laid.ts';
import { parallaxKeyOf } from '../../job/facts/parallax.ts';
import { sequenceOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { openOriginal } from './open-original.ts';

/** Wide enough to measure a fiftieth of a lenticule on most lenses, small enough to be quick. */
const MATCHED_PX = 800;

const sizeOf = ({ ribs, frames: [first] }: Job): { widthPx: number; heightPx: number } => {
  const { widthPx, heightPx } = first ?? { widthPx: 1, heightPx: 1 };
  const scale = Math.min(1, MATCHED_PX / (ribs === 'upright' ? widthPx : heightPx));
  return { widthPx: Math.round(widthPx * scale), heightPx: Math.round(heightPx * scale) };
};

const measure = async (studio: Studio, job: Job, signal: AbortSignal): Promise<void> => {
  const key = parallaxKeyOf(job);
  const pairs: (PairMotion | undefined)[] = sequenceOf(job)
    .slice(1)
    .map(() => undefined);
  const fine = new Set<number>();
  const { setState: set } = studio.work;
  set({ parallax: { key, pairs: [...pairs], votes: undefined } });
  const outcome = await measureSequence(
    await Promise.all(
      sequenceOf(job).map(async (frame) => {
        const laid = measuredArea(job, frame);
        return { ...(await openOriginal(studio, frame)), ...(laid === undefined ? {} : { laid }) };
      }),
    ),
    { options: { exposureStops: job.exposureStops }, ribs: job.ribs, ...sizeOf(job) },
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
  if (!outcome.done || signal.aborted) return;
  const whole = {
    key,
    pairs: pairs.filter((pair) => pair !== undefined),
    votes: outcome.value,
  };
  set({ parallax: whole, wholeParallax: whole });
  // Without a database the result lasts as long as the page.
  studio.room.keep('the measured parallax', () => keepParallax(whole)).catch(() => undefined);
  studio.announce('The parallax is measured.');
};

/** Measures the present sequence. Stops a measurement under way. */
export const startMeasuring = async (studio: Studio): Promise<void> => {
  const { document, work, tasks } = studio;
  const { setState: set } = work;
  const { job, jobId } = document.getState();
  tasks.stop('parallax');
  if (sequenceOf(job).length < 2) return;
  set({ measuring: { done: 0, total: 2 * sequenceOf(job).length } });
  await tasks.run({ kind: 'parallax', jobId }, async (signal) => {
    try {
      await measure(studio, job, signal);
    } catch (error) {
      if (signal.aborted) return;
      const fault = messageOf(error);
      set({ parallax: { key: parallaxKeyOf(job), pairs: [], votes: undefined, fault } });
    }
  });
  // A later measurement stopped this one and now shows its own progress.
  if (!tasks.isRunning('parallax')) set({ measuring: undefined });
};
