import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Point } from '../../../src/core/numeric/similarity.ts';
import { nearestSimilarity, throughTwo } from '../../../src/core/numeric/similarity-fit.ts';
import {
  about,
  after,
  inverse,
  moved,
  turnOf,
  zoomOf,
} from '../../../src/core/numeric/similarity.ts';

const length = fc.double({ min: -1000, max: 1000, noNaN: true });
const point: fc.Arbitrary<Point> = fc.record({ x: length, y: length });
const anyOne = fc
  .tuple(
    point,
    fc.double({ min: 0.1, max: 10, noNaN: true }),
    fc.double({ min: -3, max: 3, noNaN: true }),
  )
  .map(([still, zoom, turn]) => about(still, zoom, turn));

const expectAt = (found: Point, wanted: Point) => {
  expect(found.x).toBeCloseTo(wanted.x, 6);
  expect(found.y).toBeCloseTo(wanted.y, 6);
};

test('a quarter turn clockwise takes what is to the right to below, y downwards', () => {
  expectAt(moved(about({ x: 10, y: 10 }, 2, Math.PI / 2), { x: 11, y: 10 }), { x: 10, y: 12 });
});

test('its inverse brings every point back', () => {
  fc.assert(
    fc.property(anyOne, point, (one, at) => expectAt(moved(inverse(one), moved(one, at)), at)),
  );
});

test('one after the other is both', () => {
  fc.assert(
    fc.property(anyOne, anyOne, point, (outer, inner, at) =>
      expectAt(moved(after(outer, inner), at), moved(outer, moved(inner, at))),
    ),
  );
});

test('two points and where they lie give it back, and so do many, however they are scattered', () => {
  fc.assert(
    fc.property(anyOne, fc.array(point, { minLength: 3, maxLength: 9 }), (one, points) => {
      const [p, q] = points as [Point, Point];
      fc.pre(Math.hypot(p.x - q.x, p.y - q.y) > 1);
      for (const found of [
        throughTwo(p, moved(one, p), q, moved(one, q)),
        nearestSimilarity(points.map((from) => [from, moved(one, from)])),
      ]) {
        expect(zoomOf(found!)).toBeCloseTo(zoomOf(one), 6);
        expect(Math.cos(turnOf(found!) - turnOf(one))).toBeCloseTo(1, 9);
        expectAt(moved(found!, points[2]!), moved(one, points[2]!));
      }
    }),
  );
});

test('of points that do not agree it is the one with the least squares: no small change lessens them', () => {
  const pairs: [Point, Point][] = [0, 1, 2, 3, 4, 5].map((i) => [
    { x: 10 * i, y: (i * i * 7) % 23 },
    { x: 12 * i + ((i * 5) % 3), y: (i * i * 8) % 19 },
  ]);
  const best = nearestSimilarity(pairs)!;
  const squares = (one: typeof best) =>
    pairs.reduce((sum, [from, to]) => {
      const { x, y } = moved(one, from);
      return sum + (x - to.x) ** 2 + (y - to.y) ** 2;
    }, 0);
  for (const name of ['a', 'b', 'x0', 'y0'] as const)
    for (const step of [-1e-3, 1e-3])
      expect(squares({ ...best, [name]: best[name] + step })).toBeGreaterThan(squares(best));
});

test('there is none through points that are one', () => {
  const at = { x: 3, y: 4 };
  expect(throughTwo(at, { x: 0, y: 0 }, at, { x: 9, y: 9 })).toBeUndefined();
  expect(
    nearestSimilarity([
      [at, at],
      [at, { x: 5, y: 5 }],
    ]),
  ).toBeUndefined();
  expect(() => inverse({ a: 0, b: 0, x0: 1, y0: 1 })).toThrow(RangeError);
});
