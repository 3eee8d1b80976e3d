/** Similarities through given points. */
import type { Point, Similarity } from './similarity.ts';

/** The one that lays `from` on `to` and `from2` on `to2`; undefined where two points are one. */
export const throughTwo = (
  from: Point,
  to: Point,
  from2: Point,
  to2: Point,
): Similarity | undefined => {
  const [dx, dy] = [from2.x - from.x, from2.y - from.y];
  const [ex, ey] = [to2.x - to.x, to2.y - to.y];
  const size = dx * dx + dy * dy;
  if (size === 0 || (ex === 0 && ey === 0)) return undefined;
  const [a, b] = [(ex * dx + ey * dy) / size, (ey * dx - ex * dy) / size];
  return { a, b, x0: to.x - a * from.x + b * from.y, y0: to.y - b * from.x - a * from.y };
};

/**
 * The similarity with the least sum of squared distances from the moved points to theirs (Umeyama, IEEE PAMI 13, 1991,
 * for the plane); undefined for fewer than two points, or where all are one.
 */
export const nearestSimilarity = (
  pairs: readonly (readonly [from: Point, to: Point])[],
): Similarity | undefined => {
  const count = pairs.length;
  if (count < 2) return undefined;
  const mean = (side: 0 | 1): Point => ({
    x: pairs.reduce((sum, pair) => sum + pair[side].x, 0) / count,
    y: pairs.reduce((sum, pair) => sum + pair[side].y, 0) / count,
  });
  const [from, to] = [mean(0), mean(1)];
  let [along, turned, size] = [0, 0, 0];
  for (const [p, q] of pairs) {
    const [dx, dy, ex, ey] = [p.x - from.x, p.y - from.y, q.x - to.x, q.y - to.y];
    along += dx * ex + dy * ey;
    turned += dx * ey - dy * ex;
    size += dx * dx + dy * dy;
  }
  if (size === 0) return undefined;
  const [a, b] = [along / size, turned / size];
  if (a === 0 && b === 0) return undefined;
  return { a, b, x0: to.x - a * from.x + b * from.y, y0: to.y - b * from.x - a * from.y };
};
