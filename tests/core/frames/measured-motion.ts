/** The motion between two pictures, measured over their whole pyramids. */
import type { PairMotion } from '../../../src/core/frames/parallax/pair.ts';
import { matchPair } from '../../../src/core/frames/parallax/pair.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { pyramidOf } from '../../../src/core/frames/parallax/plane.ts';
import { run } from './run.ts';

export const measure = (
  from: Plane,
  to: Plane,
  ribs: 'upright' | 'lying' = 'upright',
): PairMotion => run(matchPair(pyramidOf(from), pyramidOf(to), { ribs, downTo: 0 }));
