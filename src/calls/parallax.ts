/** Measures the parallax of a sequence: coarsely, then finely pair by pair, then through all frames. */
import type { Remote } from 'comlink';
import type { Outcome, Reply } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import type { FileToRead } from '../contract/frames.ts';
import type { MatchSettings, ParallaxWorker } from '../contract/parallax.ts';
import type { FrontVotes } from '../core/frames/parallax/front.ts';
import type { PairMotion } from '../core/frames/parallax/pair.ts';
import { trackOf } from '../core/frames/parallax/track.ts';
import { decodeRoom } from './decode-room.ts';
import { weighAll } from './in-decode-room.ts';
import { WorkerPool, poolSize, readsPictures } from './pool.ts';
import { spawnPictureWorker } from './workers.ts';

/** Each worker keeps decoded frames in memory, and a few workers are as fast as many. */
const MOST_AT_ONCE = 4;
const pool = new WorkerPool<ParallaxWorker>(spawnPictureWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
  ...readsPictures,
});

/** A call decodes one frame at a time, while the one before may still lie in memory. */
const DECODED_AT_ONCE = 2;

/** Halvings of the quick first look. */
const FIRST_LOOK = 2;
/** Distance, in frames, of the pictures that show what covers what: far enough that covered strips appear. */
const FRONT_APART = 3;
const FRONT_PLACES = 3;

export interface MeasureCall {
  readonly signal: AbortSignal;
  /** A pair is measured, coarsely (`fine` false) or finely; finely twice where the sequence allows. */
  readonly onPair: (index: number, motion: PairMotion, fine: boolean) => void;
  /** Calls finished so far, of `total`. */
  readonly onProgress: (done: number, total: number) => void;
}

/** Indices of triples of frames around the middle of the sequence. */
const triplesOf = (count: number): (readonly [number, number, number])[] => {
  const apart = Math.min(FRONT_APART, Math.floor((count - 1) / 2));
  if (apart < 1) return [];
  const middles = Array.from({ length: count - 2 * apart }, (_, i) => i + apart);
  const first = Math.max(0, Math.floor((middles.length - FRONT_PLACES) / 2));
  return middles.slice(first, first + FRONT_PLACES).map((m) => [m - apart, m, m + apart] as const);
};

/**
 * Measures all neighbouring pairs, coarsely and finely, and returns the votes on what is in front. Throws
 * StudioError. @param frames in order, at least two.
 */
export const measureSequence = async (
  frames: readonly FileToRead[],
  settings: MatchSettings,
  { signal, onPair, onProgress }: MeasureCall,
): Promise<Outcome<FrontVotes>> => {
  const weighed = await weighAll(frames, signal);
  if (!weighed.done) return weighed;
  const bytes = DECODED_AT_ONCE * Math.max(...weighed.value);
  const run = <T>(call: (worker: Remote<ParallaxWorker>, id: string) => Promise<Reply<T>>) =>
    decodeRoom.hold(bytes, signal, () => pool.run(call, signal));
  const pairs = frames.slice(1).map((to, index) => ({ from: frames[index] as FileToRead, to }));
  const triples = triplesOf(frames.length);
  const total = 3 * pairs.length + triples.length;
  let done = 0;
  const count = <T>(outcome: Outcome<T>): Outcome<T> => {
    if (outcome.done) onProgress((done += 1), total);
    return outcome;
  };
  const match = (downTo: number) =>
    pairs.map(async (pair, index) => {
      const request = { ...settings, ...pair, downTo };
      const outcome = count(await run((worker, id) => worker.matchPair({ ...request, id })));
      if (!outcome.done) return undefined;
      onPair(index, outcome.value, downTo === 0);
      return outcome.value;
    });
  const ask = ([before, mid, next]: readonly [number, number, number]) => {
    const three = {
      before: frames[before] as FileToRead,
      mid: frames[mid] as FileToRead,
      next: frames[next] as FileToRead,
    };
    return run((worker, id) => worker.askFront({ ...settings, ...three, id })).then(count);
  };
  onProgress(0, total);
  // The pool takes calls in order: all coarse ones before any fine one.
  const coarse = match(FIRST_LOOK);
  const fine = match(0);
  const [asked, known] = await Promise.all([
    Promise.all(triples.map(ask)),
    Promise.all(fine),
    ...coarse,
  ]);
  if (signal.aborted) return stopped;
  const { ribs, widthPx, heightPx } = settings;
  const motions = known.filter((pair) => pair !== undefined);
  const track = trackOf(motions, ribs === 'upright' ? widthPx : heightPx);
  const through = motions.map(async (pair, index) => {
    if (track === undefined) return true;
    const request = { ...settings, frames, index, pair, track };
    const outcome = count(await run((worker, id) => worker.matchThrough({ ...request, id })));
    if (outcome.done) onPair(index, outcome.value, true);
    return outcome.done;
  });
  if ((await Promise.all(through)).includes(false)) return stopped;
  const votes = { right: 0, reversed: 0 };
  for (const outcome of asked) {
    if (!outcome.done) return stopped;
    votes.right += outcome.value.right;
    votes.reversed += outcome.value.reversed;
  }
  return { done: true, value: votes };
};
