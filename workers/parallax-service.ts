/** Matches neighbouring frames. Keeps the last few decoded, since each serves two pairs and two finenesses. */
import type {
  FrameToMatch,
  FrontRequest,
  MatchSettings,
  PairRequest,
  ParallaxWorker,
  ThroughRequest,
} from '../src/contract/parallax.ts';
import type { FrontVotes } from '../src/core/frames/parallax/front.ts';
import { votesOnFront } from '../src/core/frames/parallax/front.ts';
import { matchPyramids } from '../src/core/frames/parallax/match.ts';
import type { PairMotion } from '../src/core/frames/parallax/pair.ts';
import { matchPair } from '../src/core/frames/parallax/pair.ts';
import type { Plane } from '../src/core/frames/parallax/plane.ts';
import { planeOfLight, pyramidOf, turned } from '../src/core/frames/parallax/plane.ts';
import { framesAsked, motionThrough } from '../src/core/frames/parallax/slope.ts';
import { resampleLinear } from '../src/core/weave/reduce.ts';
import { axisMap, evenEdges } from '../src/core/weave/resample.ts';
import { Calls } from './answer.ts';
import { decodeImage } from './decode/index.ts';

type Checkpoint = () => Promise<void>;

/** About 4 MB each: enough for a whole ordinary sequence. */
const KEPT_AT_MOST = 16;
const kept = new Map<string, Plane[]>();

const pyramid = async (frame: FrameToMatch, settings: MatchSettings): Promise<Plane[]> => {
  const { options, ribs, widthPx, heightPx } = settings;
  const key = JSON.stringify([frame.key, options, ribs, widthPx, heightPx]);
  const had = kept.get(key);
  if (had !== undefined) return had;
  const image = await decodeImage(frame.file, frame.name);
  const light = resampleLinear(
    image,
    axisMap(evenEdges(widthPx, image.widthPx), image.widthPx),
    axisMap(evenEdges(heightPx, image.heightPx), image.heightPx),
    options.exposureStops,
  );
  const plane = planeOfLight(light.columns, light.rows, light.pixels);
  const levels = pyramidOf(ribs === 'upright' ? plane : turned(plane));
  for (const oldest of kept.keys()) {
    if (kept.size < KEPT_AT_MOST) break;
    kept.delete(oldest);
  }
  kept.set(key, levels);
  return levels;
};

/** Takes long work step by step, so that a stop is heard. */
const inSteps = async <T>(work: Generator<undefined, T>, checkpoint: Checkpoint): Promise<T> => {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    await checkpoint();
  }
};

const onePair = async (request: PairRequest, checkpoint: Checkpoint): Promise<PairMotion> => {
  const from = await pyramid(request.from, request);
  await checkpoint();
  const to = await pyramid(request.to, request);
  await checkpoint();
  const downTo = Math.min(request.downTo, from.length - 1);
  return inSteps(matchPair(from, to, { ribs: request.ribs, downTo }), checkpoint);
};

const through = async (request: ThroughRequest, checkpoint: Checkpoint): Promise<PairMotion> => {
  const planes = new Map<number, Plane>();
  for (const j of [request.index, ...framesAsked(request.index, request.frames.length)]) {
    const [finest] = await pyramid(request.frames[j]!, request);
    planes.set(j, finest!);
    await checkpoint();
  }
  return inSteps(motionThrough(planes, request.pair, request), checkpoint);
};

const front = async (request: FrontRequest, checkpoint: Checkpoint): Promise<FrontVotes> => {
  const [before, mid, next] = [
    await pyramid(request.before, request),
    await pyramid(request.mid, request),
    await pyramid(request.next, request),
  ];
  await checkpoint();
  const field = await inSteps(matchPyramids(mid, next), checkpoint);
  return votesOnFront(before[0]!, mid[0]!, next[0]!, field);
};

export const createParallaxService = (): ParallaxWorker => {
  const calls = new Calls();
  return {
    matchPair: (request) =>
      calls.run(
        request.id,
        (checkpoint) => onePair(request, checkpoint),
        ({ shift, rise }) => [shift.buffer, rise.buffer],
      ),
    matchThrough: (request) =>
      calls.run(
        request.id,
        (checkpoint) => through(request, checkpoint),
        ({ shift, rise }) => [shift.buffer, rise.buffer],
      ),
    askFront: (request) => calls.run(request.id, (checkpoint) => front(request, checkpoint)),
    cancel: (id) => calls.cancel(id),
  };
};
