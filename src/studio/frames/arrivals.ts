/** Batches of frames that arrive: one after the other, and all of them can be stopped. */
import { toWorkError } from '../../contract/errors.ts';
import type { Floor } from '../floor.ts';
import type { Notes } from './notes.ts';

/**
 * Begins at once with what cannot wait, such as reading a drop; the function it returns is queued. The
 * signal fires when the person stops what arrives.
 */
export type Batch = (signal: AbortSignal) => () => Promise<void>;

export const createArrivals = ({ document, work, tasks }: Floor, notes: Notes) => {
  let last: Promise<void> = Promise.resolve();

  const afterTheLast = (layIn: () => Promise<void>): Promise<void> => {
    last = last
      .then(() => {
        const { lookOnly } = document.getState();
        if (lookOnly !== undefined) throw new Error(lookOnly);
        return layIn();
      })
      .catch((error: unknown) => notes.problem(toWorkError(error).message));
    return last;
  };

  return {
    /** Never rejects: what goes wrong is left as a note. */
    inTurn: async (batch: Batch): Promise<void> => {
      const { set } = work.getState();
      if (!tasks.isRunning('arrivals')) set({ arriving: { done: 0, total: 0 } });
      const { jobId } = document.getState();
      await tasks.run({ kind: 'arrivals', jobId }, (signal) => afterTheLast(batch(signal)));
      if (!tasks.isRunning('arrivals')) set({ arriving: undefined });
    },

    /** Stops the batch under way and those that wait. */
    stop: (): void => tasks.stop('arrivals'),
  };
};

export type Arrivals = ReturnType<typeof createArrivals>;
