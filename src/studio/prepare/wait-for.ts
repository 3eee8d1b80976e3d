/** Waits for something that follows from the open job and its prepared frames. */
import type { Floor } from '../floor.ts';

/**
 * Looks now, whenever the job or the work on its frames changes, and once more at a stop.
 * @param look undefined: not yet. At a stop it must come to an end.
 */
export const waitFor = <Found extends object>(
  { document, work }: Pick<Floor, 'document' | 'work'>,
  signal: AbortSignal,
  look: () => Found | undefined,
): Promise<Found> =>
  new Promise((resolve, reject) => {
    const settle = () => {
      try {
        const found = look();
        if (found === undefined) return;
        resolve(found);
      } catch (error) {
        reject(error instanceof Error ? error : new Error(String(error)));
      }
      for (const end of endings) end();
    };
    const endings = [
      work.subscribe(settle),
      document.subscribe(settle),
      () => signal.removeEventListener('abort', settle),
    ];
    signal.addEventListener('abort', settle);
    settle();
  });
