/** Path through points, in pixels. */
export const line = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y], place) => `${place === 0 ? 'M' : 'L'}${x} ${y}`).join('');
