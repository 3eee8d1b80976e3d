/** Makes views that were never rendered: one at a time for a look, or a whole set. */
import type { Outcome } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import type {
  BetweenRequest,
  DepthScene,
  MadeView,
  SynthWorker,
  ViewRequest,
} from '../contract/synth.ts';
import type { FilledPlaces } from '../core/frames/synth/filled-places.ts';
import { decodeRoom } from './decode-room.ts';
import type { Picture } from './in-decode-room.ts';
import { inDecodeRoom, weighTogether } from './in-decode-room.ts';
import { WorkerPool, poolSize, readsPictures } from './pool.ts';
import { readingLimits, runWithin } from './within-time.ts';
import { spawnPictureWorker } from './workers.ts';

/** Each worker holds a whole decoded scene: more of them would cost memory and save little time. */
const MOST_AT_ONCE = 2;
/** Reading the depths is the smaller part of making a view. */
const MAKING_TAKES = 5;
const pool = new WorkerPool<SynthWorker>(spawnPictureWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
  ...readsPictures,
});

export interface MakeCall {
  readonly signal: AbortSignal;
  /** Pictures made so far, of all that are wanted. */
  readonly report: (done: number, total: number) => void;
}

const viewMade = (
  request: Omit<ViewRequest, 'id'>,
  signal: AbortSignal,
): Promise<Outcome<MadeView>> =>
  runWithin(
    pool,
    (worker, id) => worker.makeView({ ...request, id }),
    readingLimits(request.depth.file, request.depth.name, signal, MAKING_TAKES),
  );

/** One view. Throws StudioError. */
export const makeView = (
  request: Omit<ViewRequest, 'id'>,
  signal: AbortSignal,
): Promise<Outcome<MadeView>> =>
  inDecodeRoom([request.picture, request.depth], signal, () => viewMade(request, signal));

/** Reads the kept picture of a frame's filled places. Throws StudioError. */
export const readFilled = (
  file: Blob,
  name: string,
  signal: AbortSignal,
): Promise<Outcome<FilledPlaces>> =>
  pool.run((worker, id) => worker.readFilled({ id, file, name }), signal);

/** All of them, in order, each made from these pictures; a failure stops the rest. */
const makeAll = async (
  pictures: readonly Picture[],
  makers: readonly ((signal: AbortSignal) => Promise<Outcome<MadeView>>)[],
  { signal, report }: MakeCall,
): Promise<Outcome<MadeView[]>> => {
  const halt = new AbortController();
  const either = AbortSignal.any([signal, halt.signal]);
  const weighed = await weighTogether(pictures, signal);
  if (!weighed.done) return weighed;
  let done = 0;
  report(0, makers.length);
  try {
    const outcomes = await Promise.all(
      makers.map(async (make) => {
        const outcome = await decodeRoom.hold(weighed.value, either, () => make(either));
        if (outcome.done) report((done += 1), makers.length);
        return outcome;
      }),
    );
    const made = outcomes.flatMap((outcome) => (outcome.done ? [outcome.value] : []));
    return made.length === makers.length && !signal.aborted ? { done: true, value: made } : stopped;
  } catch (error) {
    halt.abort();
    throw error;
  }
};

/** @param slides one for each view, as in `ViewRequest`. Throws StudioError. */
export const makeViews = (
  scene: DepthScene,
  slides: readonly number[],
  call: MakeCall,
): Promise<Outcome<MadeView[]>> =>
  makeAll(
    [scene.picture, scene.depth],
    slides.map((slide) => (signal) => viewMade({ ...scene, slide }, signal)),
    call,
  );

/** @param places between the first frame (0) and the second (1). Throws StudioError. */
export const makeBetweens = (
  pair: Omit<BetweenRequest, 'id' | 'place'>,
  places: readonly number[],
  call: MakeCall,
): Promise<Outcome<MadeView[]>> =>
  makeAll(
    [pair.first, pair.second],
    places.map(
      (place) => (signal) =>
        pool.run((worker, id) => worker.makeBetween({ ...pair, place, id }), signal),
    ),
    call,
  );
