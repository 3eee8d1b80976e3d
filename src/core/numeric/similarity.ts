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
