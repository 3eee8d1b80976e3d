/**
 * How one picture lies on another: zoom, turn and shift. Places that look alike are found at many sizes, the similarity
 * that most of them agree on is taken, and settled on the pictures themselves to a part of a pixel. It says so where it
 * cannot tell.
 */
import type { Similarity } from '../../numeric/similarity.ts';
import { after, inverse, moved, zoomOf } from '../../numeric/similarity.ts';
import type { Plane } from '../parallax/plane.ts';
import type { Agreement, Pair } from './agree.ts';
import { agreementOf } from './agree.ts';
import type { Features } from './features.ts';
import { featuresOf, matchFeatures } from './features.ts';
import { evened, meanAround, resizedBy } from './planes.ts';
import { settle } from './settle.ts';

export type PictureMatch =
  | {
      readonly found: true;
      /** From pixels of the one plane to pixels of the other. */
      readonly between: Similarity;
      /** Places that agree, and those that were compared. */
      readonly agreeing: number;
      readonly compared: number;
    }
  /** `plain`: a picture has too few corners. `unlike`: too few of them agree. */
  | { readonly found: false; readonly why: 'plain' | 'unlike'; readonly agreeing: number };

/** Fewer corners tell nothing. */
const FEWEST_CORNERS = 30;
/** So many agreeing places at least, and once in a million pairs of pictures by chance. */
const FEWEST_AGREEING = 10;
const MOST_BY_CHANCE = -6;
/** Of the whole, that agreeing places must reach over: a single label in both pictures is no match. */
const LEAST_REACH = 0.12;

/** Settling may move no corner further from where the places put it, in pixels. */
const MOST_SETTLED_PX = 6;
/** Of what lies on both, that must agree once it is settled. */
const LEAST_AGREES = 0.3;

const pairsOf = (
  from: Features,
  to: Features,
  matches: readonly (readonly [number, number])[],
): Pair[] =>
  matches.map(([i, j]) => ({
    from: { x: from.x[i]!, y: from.y[i]! },
    to: { x: to.x[j]!, y: to.y[j]! },
    scale: to.scale[j]!,
  }));

/** How far the agreeing places reach, as a share of the smaller picture's side. */
const reachOf = ({ pairs }: Agreement, plane: Plane): number => {
  const reach = (values: number[]) => {
    const sorted = values.sort((a, b) => a - b);
    // A tenth at each end may be by chance.
    return (
      sorted[Math.floor(0.9 * (sorted.length - 1))]! - sorted[Math.ceil(0.1 * (sorted.length - 1))]!
    );
  };
  return (
    Math.max(reach(pairs.map(({ from }) => from.x)), reach(pairs.map(({ from }) => from.y))) /
    Math.min(plane.width, plane.height)
  );
};

const cornersOf = ({ width, height }: Plane) => [
  { x: 0, y: 0 },
  { x: width, y: 0 },
  { x: 0, y: height },
  { x: width, y: height },
];

const sized = (plane: Plane, factor: number) => ({
  plane: resizedBy(plane, factor),
  scale: { a: factor, b: 0, x0: 0, y0: 0 },
});

/** Pixels around a place over which its light is evened. */
const EVENED_PX = 12;

function* settledOn(
  from: Plane,
  to: Plane,
  rough: Similarity,
): Generator<undefined, Similarity | undefined> {
  // The finer of the two is brought to the size of the other.
  const zoom = zoomOf(rough);
  const ours = sized(from, Math.min(1, zoom));
  const theirs = sized(to, Math.min(1, 1 / zoom));
  const prepare = ({ plane }: typeof ours) => evened(meanAround(plane, 1), EVENED_PX);
  const start = after(theirs.scale, after(rough, inverse(ours.scale)));
  const settled = yield* settle(prepare(ours), prepare(theirs), start);
  if (settled === undefined || settled.agrees < LEAST_AGREES) return undefined;
  const off = cornersOf(ours.plane).map((corner) => {
    const [was, is] = [moved(start, corner), moved(settled.between, corner)];
    return Math.hypot(was.x - is.x, was.y - is.y);
  });
  if (Math.max(...off) > MOST_SETTLED_PX) return undefined;
  return after(inverse(theirs.scale), after(settled.between, ours.scale));
}

/** @param from and `to`: grey, in any even scale of light. Yields now and then. */
export function* matchPictures(from: Plane, to: Plane): Generator<undefined, PictureMatch> {
  const ours = yield* featuresOf(from);
  const theirs = yield* featuresOf(to);
  if (Math.min(ours.count, theirs.count) < FEWEST_CORNERS)
    return { found: false, why: 'plain', agreeing: 0 };
  const matches = yield* matchFeatures(ours, theirs);
  yield;
  const agreed = agreementOf(pairsOf(ours, theirs, matches), to.width * to.height);
  const agreeing = agreed?.pairs.length ?? 0;
  if (
    agreed === undefined ||
    agreeing < FEWEST_AGREEING ||
    agreed.byChance > MOST_BY_CHANCE ||
    reachOf(agreed, from) < LEAST_REACH
  )
    return { found: false, why: 'unlike', agreeing };
  yield;
  const between = (yield* settledOn(from, to, agreed.between)) ?? agreed.between;
  return { found: true, between, agreeing, compared: matches.length };
}
