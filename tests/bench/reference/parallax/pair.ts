/** Both ways, as the studio does (src/core/frames/parallax/pair.ts), on top of the reference's own matching. */
import type { PairMotion } from '../../../../src/core/frames/parallax/pair.ts';
import { motionOf } from '../../../../src/core/frames/parallax/pair.ts';
import type { Plane } from '../../../../src/core/frames/parallax/plane.ts';
import { trusted } from '../../../../src/core/frames/parallax/trust.ts';
import { matchPyramids } from './match.ts';

export function* matchPair(
  from: readonly Plane[],
  to: readonly Plane[],
  { ribs, downTo }: { readonly ribs: 'upright' | 'lying'; readonly downTo: number },
): Generator<undefined, PairMotion> {
  const there = yield* matchPyramids(from, to, downTo);
  const back = yield* matchPyramids(to, from, downTo);
  return motionOf(there, trusted(there, back), from[downTo]!, ribs);
}
