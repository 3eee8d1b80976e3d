/** Takes in batches of frames one after the other; all of them can be stopped. */
import { messageOf } from '../../contract/errors.ts';
import type { Floor } from '../floor.ts';
import type { Notes } from './notes.ts';

/**
 * Begins at once with what cannot wait, such as reading a drop; the function that it returns is queued. The
 * signal fires when the person stops the arrivals.
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
      .catch((error: unknown) => notes.problem(messageOf(error)));
    return last;
  };

  return {
    /** Never rejects: an error becomes a note. */
    inTurn: async (batch: Batch): Promise<void> => {
      if (!tasks.isRunning('arrivals')) work.setState({ arriving: { done: 0, total: 0 } });
      const { jobId } = document.getState();
      await tasks.run({ kind: 'arrivals', jobId }, (signal) => afterTheLast(batch(signal)));
      if (!tasks.isRunning('arrivals')) work.setState({ arriving: undefined });
    },

    /** Stops the batch under way and those that wait. */
    stop: (): void => tasks.stop('arrivals'),
  };
};
