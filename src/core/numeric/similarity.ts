/** Zoom, turn and shift of the plane in one: x′ = a x − b y + x₀, y′ = b x + a y + y₀. With y downwards, b > 0 turns clockwise. */
export interface Similarity {
  readonly a: number;
  readonly b: number;
  readonly x0: number;
  readonly y0: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export const unmoved: Similarity = { a: 1, b: 0, x0: 0, y0: 0 };

export const moved = ({ a, b, x0, y0 }: Similarity, { x, y }: Point): Point => ({
  x: a * x - b * y + x0,
  y: b * x + a * y + y0,
});

/** First `inner`, then `outer`. */
export const after = (outer: Similarity, inner: Similarity): Similarity => {
  const { x, y } = moved(outer, { x: inner.x0, y: inner.y0 });
  return {
    a: outer.a * inner.a - outer.b * inner.b,
    b: outer.b * inner.a + outer.a * inner.b,
    x0: x,
    y0: y,
  };
};

/** @throws RangeError for one that makes all a single point */
export const inverse = ({ a, b, x0, y0 }: Similarity): Similarity => {
  const size = a * a + b * b;
  if (!(size > 0)) throw new RangeError('A similarity of no size has no inverse.');
  const back = { a: a / size, b: -b / size, x0: 0, y0: 0 };
  const from = moved(back, { x: x0, y: y0 });
  return { ...back, x0: 0 - from.x, y0: 0 - from.y };
};

export const zoomOf = ({ a, b }: Similarity): number => Math.hypot(a, b);

/** Clockwise, radians, −π … π. */
export const turnOf = ({ a, b }: Similarity): number => Math.atan2(b, a);

export const shiftBy = (x0: number, y0: number): Similarity => ({ a: 1, b: 0, x0, y0 });

/** Zoomed by a factor above 0 and turned clockwise, `still` staying where it is. */
export const about = (still: Point, zoom: number, turnRad: number): Similarity => {
  const spin = { a: zoom * Math.cos(turnRad), b: zoom * Math.sin(turnRad), x0: 0, y0: 0 };
  const gone = moved(spin, still);
  return { ...spin, x0: still.x - gone.x, y0: still.y - gone.y };
};

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
