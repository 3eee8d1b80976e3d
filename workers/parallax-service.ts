/** Matches neighbouring frames. Keeps the last few decoded: each belongs to two pairs, matched at two finenesses. */
import type { FileToRead } from '../src/contract/frames.ts';
import type {
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
import { framesAsked } from '../src/core/frames/parallax/others.ts';
import { motionThrough } from '../src/core/frames/parallax/slope.ts';
import { sampleArea } from '../src/core/weave/reduce.ts';
import type { ReducedFrame } from '../src/core/weave/reduce.ts';
import { evenEdges } from '../src/core/weave/resample.ts';
import type { Checkpoint } from './answer.ts';
import { Calls, inSteps } from './answer.ts';
import { decodeImage } from './decode/index.ts';
import { lastFew } from './remembered.ts';
import { scaled } from './scaled.ts';

/** About 8 MB each: enough for a whole ordinary sequence. */
const KEPT_AT_MOST = 16;
const keepPyramid = lastFew<Plane[]>(KEPT_AT_MOST);

/** At the size to match, in linear light; a placed picture as it lies. */
const lightOf = async (
  { file, name, laid }: FileToRead,
  { widthPx, heightPx, options }: MatchSettings,
  checkpoint: Checkpoint,
): Promise<ReducedFrame> => {
  const image = await decodeImage(file, name);
  if (laid === undefined) return scaled(image, widthPx, heightPx, options);
  const edges = { columns: evenEdges(widthPx, 1), rows: evenEdges(heightPx, 1) };
  return inSteps(sampleArea(image, laid, edges, options), checkpoint);
};

const pyramid = (
  frame: FileToRead,
  settings: MatchSettings,
  checkpoint: Checkpoint,
): Promise<Plane[]> => {
  const { options, ribs, widthPx, heightPx } = settings;
  const key = JSON.stringify([frame.key, frame.laid, options, ribs, widthPx, heightPx]);
  return keepPyramid(key, async () => {
    const light = await lightOf(frame, settings, checkpoint);
    const plane = planeOfLight(light.columns, light.rows, light.pixels);
    return pyramidOf(ribs === 'upright' ? plane : turned(plane));
  });
};

const onePair = async (request: PairRequest, checkpoint: Checkpoint): Promise<PairMotion> => {
  const from = await pyramid(request.from, request, checkpoint);
  await checkpoint();
  const to = await pyramid(request.to, request, checkpoint);
  await checkpoint();
  const downTo = Math.min(request.downTo, from.length - 1);
  return inSteps(matchPair(from, to, { ribs: request.ribs, downTo }), checkpoint);
};

const through = async (request: ThroughRequest, checkpoint: Checkpoint): Promise<PairMotion> => {
  const planes = new Map<number, Plane>();
  for (const j of [request.index, ...framesAsked(request.index, request.frames.length)]) {
    const [finest] = await pyramid(request.frames[j]!, request, checkpoint);
    planes.set(j, finest!);
    await checkpoint();
  }
  return inSteps(motionThrough(planes, request.pair, request), checkpoint);
};

const front = async (request: FrontRequest, checkpoint: Checkpoint): Promise<FrontVotes> => {
  const [before, mid, next] = [
    await pyramid(request.before, request, checkpoint),
    await pyramid(request.mid, request, checkpoint),
    await pyramid(request.next, request, checkpoint),
  ];
  await checkpoint();
  const field = await inSteps(matchPyramids(mid, next), checkpoint);
  return votesOnFront(before[0]!, mid[0]!, next[0]!, field);
};

const buffersOf = ({ shift, rise }: PairMotion) => [shift.buffer, rise.buffer];

export const createParallaxService = (): ParallaxWorker => {
  const calls = new Calls();
  return {
    matchPair: calls.method(onePair, buffersOf),
    matchThrough: calls.method(through, buffersOf),
    askFront: calls.method(front),
    cancel: calls.cancel,
  };
};
