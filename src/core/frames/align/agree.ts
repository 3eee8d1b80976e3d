/** The similarity on which most pairs of places agree, and whether so many could agree by chance. */
import type { Point, Similarity } from '../../numeric/similarity.ts';
import { nearestSimilarity, throughTwo } from '../../numeric/similarity-fit.ts';
import { moved, zoomOf } from '../../numeric/similarity.ts';
import { drawer } from './draw.ts';

export interface Pair {
  readonly from: Point;
  readonly to: Point;
  /** Of the place in `to`: how exact it can be, in pixels. */
  readonly scale: number;
}

export interface Agreement {
  readonly between: Similarity;
  /** Pairs that agree. */
  readonly pairs: readonly Pair[];
  /** Base 10 logarithm of how many such agreements chance would bring. */
  readonly byChance: number;
}

const TRIES = 4000;
/** In pixels at the size a place was found at. */
const NEAR_PX = 3;
/** Pictures are not taken at sizes that differ by more. */
const MOST_ZOOM = 6;

const missOf = (between: Similarity, { from, to }: Pair): number => {
  const { x, y } = moved(between, from);
  return Math.hypot(x - to.x, y - to.y);
};

const agreeing = (between: Similarity, pairs: readonly Pair[], near: number): Pair[] =>
  pairs.filter((pair) => missOf(between, pair) < near * pair.scale);

const nearestTo = (pairs: readonly Pair[]): Similarity | undefined =>
  nearestSimilarity(pairs.map(({ from, to }) => [from, to] as const));

const isSensible = (between: Similarity | undefined): between is Similarity => {
  const zoom = between === undefined ? 0 : zoomOf(between);
  return zoom > 1 / MOST_ZOOM && zoom < MOST_ZOOM;
};

const log10Choose = (n: number, k: number): number => {
  let sum = 0;
  for (let i = 1; i <= k; i += 1) sum += Math.log10((n - k + i) / i);
  return sum;
};

/**
 * How many agreements of k among n pairs chance brings, base 10 logarithm (Moisan & Stival, IJCV 57, 2004, for two
 * points that make a hypothesis). @param share of the other picture that lies near enough to one place
 */
export const chanceOf = (n: number, k: number, share: number): number =>
  Math.log10(Math.max(1, n - 2)) +
  log10Choose(n, k) +
  log10Choose(k, 2) +
  (k - 2) * Math.log10(share);

/** A place is often found at several sizes: within so many pixels it counts once. */
const ONE_PLACE_PX = 8;

const placesIn = (pairs: readonly Pair[]): number =>
  new Set(
    pairs.map(
      ({ from: { x, y } }) => `${Math.floor(x / ONE_PLACE_PX)},${Math.floor(y / ONE_PLACE_PX)}`,
    ),
  ).size;

/** @param areaPx of the picture that holds `to`. Undefined where no two pairs agree. */
export const agreementOf = (pairs: readonly Pair[], areaPx: number): Agreement | undefined => {
  if (pairs.length < 3) return undefined;
  const draw = drawer(pairs.length);
  const any = () => pairs[Math.floor(draw() * pairs.length)]!;
  let best: { readonly between: Similarity; readonly pairs: Pair[] } | undefined;
  for (let i = 0; i < TRIES; i += 1) {
    const [one, other] = [any(), any()];
    const between = throughTwo(one.from, one.to, other.from, other.to);
    if (!isSensible(between)) continue;
    const found = agreeing(between, pairs, NEAR_PX);
    if (found.length > (best?.pairs.length ?? 2)) best = { between, pairs: found };
  }
  if (best === undefined) return undefined;
  let { between, pairs: agreed } = best;
  for (let i = 0; i < 6; i += 1) {
    const better = nearestTo(agreed);
    if (!isSensible(better)) break;
    const found = agreeing(better, pairs, NEAR_PX);
    if (found.length < 3) break;
    between = better;
    agreed = found;
  }
  const meanScale = agreed.reduce((sum, { scale }) => sum + scale ** 2, 0) / agreed.length;
  const share = Math.min(1, (Math.PI * NEAR_PX ** 2 * meanScale) / areaPx);
  return { between, pairs: agreed, byChance: chanceOf(placesIn(pairs), placesIn(agreed), share) };
};
