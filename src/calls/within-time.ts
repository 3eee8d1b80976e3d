/** Calls that may never return: a broken file can keep a decoding library busy for ever. */
import type { Remote } from 'comlink';
import type { Outcome, Reply } from '../contract/errors.ts';
import { StudioError, stopped } from '../contract/errors.ts';
import type { WorkerPool } from './pool.ts';

interface Limits {
  readonly signal: AbortSignal | undefined;
  /** Counted from when a worker takes the call up, not while it waits for one. */
  readonly mostMs: number;
  /** What is thrown when the time is up. */
  readonly tooLong: () => StudioError;
}

/**
 * Like the pool's `run`, with a time limit. After it the call is stopped; the pool ends a worker that does
 * not answer the stop, and makes another.
 */
export const runWithin = async <W extends { cancel(id: string): void }, T>(
  pool: WorkerPool<W>,
  run: (worker: Remote<W>, id: string) => Promise<Reply<T>>,
  { signal, mostMs, tooLong }: Limits,
): Promise<Outcome<T>> => {
  const halt = new AbortController();
  const onStop = () => halt.abort();
  const wantsStop = () => signal?.aborted === true;
  if (wantsStop()) return stopped;
  signal?.addEventListener('abort', onStop, { once: true });
  let timer: ReturnType<typeof setTimeout> | undefined;
  const clock = { late: false };
  try {
    const outcome = await pool.run((worker, id) => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        clock.late = true;
        halt.abort();
      }, mostMs);
      return run(worker, id);
    }, halt.signal);
    if (clock.late && !outcome.done && !wantsStop()) throw tooLong();
    return outcome;
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener('abort', onStop);
  }
};

/** Many times what reading the largest picture takes on a slow machine. */
const mostMsFor = (file: Blob): number => 45_000 + (2000 * file.size) / 2 ** 20;

/** The limit for calls that read a file. @param times a larger limit for calls that do much more with it. */
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
        `"${name}" could not be read within ${Math.round(mostMs / 1000)} seconds and was given up: it is most likely damaged. Copy it again from where it was made, or render that frame again.`,
        name,
      ),
  };
};
