/** Time limits for calls that may never return: a broken file can keep a decoding library busy forever. */
import type { Remote } from 'comlink';
import type { Outcome, Reply } from '../contract/errors.ts';
import { StudioError } from '../contract/errors.ts';
import { nameInText } from '../core/names/shown.ts';
import type { WorkerPool } from './pool.ts';

interface Limits {
  readonly signal: AbortSignal | undefined;
  /** Counted from when a worker takes the call up, not while it waits for one. */
  readonly mostMs: number;
  /** What is thrown when the time is up. */
  readonly tooLong: () => StudioError;
}

/**
 * Like the pool's `run`, but stops the call after a time limit. The pool replaces a worker that does not
 * answer the stop.
 */
export const runWithin = async <W extends { cancel(id: string): void }, T>(
  pool: WorkerPool<W>,
  run: (worker: Remote<W>, id: string) => Promise<Reply<T>>,
  { signal, mostMs, tooLong }: Limits,
): Promise<Outcome<T>> => {
  const clock = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  try {
    const outcome = await pool.run(
      (worker, id) => {
        clearTimeout(timer);
        timer = setTimeout(() => clock.abort(), mostMs);
        return run(worker, id);
      },
      AbortSignal.any([clock.signal, ...(signal === undefined ? [] : [signal])]),
    );
    if (clock.signal.aborted && !outcome.done && signal?.aborted !== true) throw tooLong();
    return outcome;
  } finally {
    clearTimeout(timer);
  }
};

/** Many times as long as a slow machine takes to read the largest picture. */
const mostMsFor = (file: Blob): number => 45_000 + (2000 * file.size) / 2 ** 20;

/** The limit for calls that read a file. @param times enlarges it for calls that do more than read. */
export const readingLimits = (
  file: Blob,
  name: string,
  signal: AbortSignal | undefined,
  times = 1,
): Limits => {
  const mostMs = times * mostMsFor(file);
  return {
    signal,
    mostMs,
    tooLong: () =>
      new StudioError(
        'damaged',
        `"${nameInText(name)}" could not be read within ${Math.round(mostMs / 1000)} seconds and was given up: it is most likely damaged. Copy it again from where it was made, or render that frame again.`,
        name,
      ),
  };
};
