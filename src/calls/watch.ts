/**
 * Tells a worker that is gone or stuck from one that is slow. One that is gone, however it ended, lets go of a
 * lock that it held, at once. One that is stuck does not answer whether it is there, ever; a worker that computes
 * does so too, but not for long. The second way also finds dead workers where the browser has no locks.
 */
import type { Remote } from 'comlink';
import type { AnyWorker } from '../contract/worker.ts';

export interface WatchLimits {
  /** A worker that has not answered within this time after it was made is assumed never to have loaded its script. */
  readonly startMs: number;
  /** How often a worker with calls is asked whether it is there. */
  readonly askEveryMs: number;
  /**
   * So many questions in a row without an answer, and it is taken for stuck. They are counted rather than the
   * time: while a page is frozen or its machine asleep nobody is asked, and nobody is late.
   */
  readonly unansweredMost: number;
}

/** Called at most once each. */
interface Told {
  readonly begun: () => void;
  readonly neverBegan: () => void;
  /** It ended or is stuck. */
  readonly gone: () => void;
}

/** Outside a browser, and in pages that were not sent securely, there are none. */
const locks = (globalThis as { readonly navigator?: { readonly locks?: LockManager } }).navigator
  ?.locks;

/** Waits for the end of a worker. Resolves once it is there and, where the browser has locks, holds its own. */
const hearOfEnd = async (
  remote: Remote<AnyWorker>,
  gone: () => void,
  signal: AbortSignal,
): Promise<void> => {
  if (locks === undefined) return remote.cancel('');
  const name = `tiltloom-worker-${crypto.randomUUID()}`;
  const isHeld = await remote.holdLock(name).catch(() => false);
  if (isHeld) locks.request(name, { signal }, gone).catch(() => undefined);
};

/** @param isBusy whether it has calls. @returns what ends the watch; nothing is told after it */
export const watchWorker = (
  remote: Remote<AnyWorker>,
  isBusy: () => boolean,
  { startMs, askEveryMs, unansweredMost }: WatchLimits,
  told: Told,
): (() => void) => {
  const over = new AbortController();
  let unanswered = 0;
  const answered = () => {
    unanswered = 0;
  };
  const ask = () => {
    if (!isBusy()) return answered();
    if (unanswered >= unansweredMost) return told.gone();
    unanswered += 1;
    remote.cancel('').then(answered, () => undefined);
  };
  const start = setTimeout(told.neverBegan, startMs);
  let asking: ReturnType<typeof setInterval> | undefined;
  const begin = () => {
    if (over.signal.aborted) return;
    clearTimeout(start);
    told.begun();
    asking = setInterval(ask, askEveryMs);
  };
  hearOfEnd(remote, told.gone, over.signal).then(begin, () => undefined);
  return () => {
    over.abort();
    clearTimeout(start);
    clearInterval(asking);
  };
};
