/** slopeRow against the few plain lines that it stands for. */
import { expect, test } from 'vitest';
import type { Other } from '../../../src/core/frames/parallax/others.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { pyramidOf } from '../../../src/core/frames/parallax/plane.ts';
import { searched } from '../../../src/core/frames/parallax/search.ts';
import { run } from '../frames/run.ts';

const [WIDTH, HEIGHT] = [61, 37];

/** Waves of several lengths, bare to the left of column 20; moved to the right by dx. */
const shown = (dx: number): Plane => {
  const data = Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
    const [x, y] = [(i % WIDTH) - dx, Math.floor(i / WIDTH)];
    if (x < 20) return 0.3;
    return 0.5 + 0.03 * (Math.sin(x) + Math.sin(0.7 * x + 0.9 * y) + Math.sin(0.5 * x - 0.6 * y));
  });
  return pyramidOf({ width: WIDTH, height: HEIGHT, data })[0] as Plane;
};
const SLOPE = 0.37;
const plane = shown(0);
const others: Other[] = [3, -3, 2, -2, 1, -1].map((along) => ({
  plane: shown(SLOPE * along + 0.2),
  along,
  slip: 0.2,
}));

const held = (value: number, most: number) => Math.min(most, Math.max(0, value));
const at = ({ width, height }: Plane, data: Float32Array, x: number, y: number) =>
  data[held(y, height - 1) * width + held(x, width - 1)] ?? NaN;
/** Keys (1981), a = −1/2. */
const keys = (distance: number): number => {
  const d = Math.abs(distance);
  if (d >= 2) return 0;
  return d < 1 ? 1.5 * d ** 3 - 2.5 * d ** 2 + 1 : -0.5 * d ** 3 + 2.5 * d ** 2 - 4 * d + 2;
};

interface Counted {
  readonly u: number;
  readonly v: number;
  readonly weight: number;
}

/** The pixels of a window that count, by likeness with the middle one before softening and by nearness. */
const windowAt = (x: number, y: number): Counted[] => {
  const sharp = (u: number, v: number) => at(plane, plane.sharp ?? plane.data, x + u, y + v);
  const counted: Counted[] = [];
  for (let v = -4; v <= 4; v += 1)
    for (let u = -4; u <= 4; u += 1) {
      const unlike = Math.max(...[-1, 0, 1].map((w) => Math.abs(sharp(u + w, v) - sharp(0, 0))));
      const weight = Math.exp(-unlike / 0.06 - (u * u + v * v) / 12.5);
      if (weight >= 0.02) counted.push({ u, v, weight });
    }
  return counted;
};
const mean = (of: readonly Counted[], value: (pixel: Counted) => number): number =>
  of.reduce((sum, pixel) => sum + pixel.weight * value(pixel), 0) /
  of.reduce((sum, { weight }) => sum + weight, 0);

const costAt = (x: number, y: number, slope: number): number => {
  const pixels = windowAt(x, y);
  const misses = others.map((other) => ({
    left: other.along < 0,
    miss: mean(pixels, ({ u, v }) => {
      const moved = x + u + slope * other.along + other.slip;
      let there = 0;
      for (let w = Math.floor(moved) - 1; w <= Math.floor(moved) + 2; w += 1)
        there += keys(moved - w) * at(other.plane, other.plane.data, w, y + v);
      return Math.min(0.03, Math.abs(there - at(plane, plane.data, x + u, y + v)));
    }),
  }));
  const sum = (of: typeof misses) => of.reduce((all, { miss }) => all + miss, 0) / of.length;
  const sides = [sum(misses.filter(({ left }) => left)), sum(misses.filter(({ left }) => !left))];
  return 0.8 * Math.min(...sides) + 0.2 * sum(misses);
};

/** Whether pixels are as steep across the ribs, in root mean square, each gradient held to 3/255. None are. */
const isSteep = (pixels: readonly Counted[], x: number, y: number, limit: number): boolean =>
  pixels.reduce((sum, { u, v, weight }) => {
    const sharp = (w: number) => at(plane, plane.sharp ?? plane.data, x + w, y + v);
    const gradient = Math.min(3 / 255, Math.abs(sharp(u + 1) - sharp(u - 1)) / 2);
    return sum + weight * (gradient ** 2 - limit ** 2);
  }, 0) >= 0;

test('the slope that costs least, between three; and whether the place shows it itself', () => {
  const [from, to] = [-0.1, 0.9];
  const found = run(searched(plane, others, () => [from, to]));
  const [columns, rows] = [7, 4];
  expect([found.columns, found.rows]).toEqual([columns, rows]);
  const counts = { bare: 0, own: 0, told: 0 };
  for (let place = 0; place < columns * rows; place += 1) {
    const [x, y] = [8 * (place % columns) + 4, 8 * Math.floor(place / columns) + 4];
    const pixels = windowAt(x, y);
    const gradient = mean(pixels, ({ u, v }) => {
      const soft = (w: number) => at(plane, plane.data, x + u + w, y + v);
      return ((soft(1) - soft(-1)) / 2) ** 2;
    });
    if (gradient < (2 / 255) ** 2) {
      counts.bare += 1;
      expect([found.slopes[place], found.own[place]], `place ${place}`).toEqual([NaN, 0]);
      continue;
    }
    const isOwn =
      isSteep(pixels, x, y, 1.3 / 255) &&
      [-1, 1].every((side) =>
        isSteep(
          pixels.filter(({ u }) => u * side > 0),
          x,
          y,
          1 / 255,
        ),
      );
    expect(found.own[place], `place ${place}`).toBe(isOwn ? 1 : 0);
    counts.own += isOwn ? 1 : 0;
    const costs = Array.from({ length: 11 }, (_, i) => costAt(x, y, from + i / 10));
    const least = Math.min(...costs);
    const best = costs.indexOf(least);
    const rivals = costs.some((cost, i) => Math.abs(i - best) > 1 && 0.8 * cost < least);
    if (best === 0 || best === 10 || rivals) {
      expect(found.slopes[place], `place ${place}`).toBeNaN();
      continue;
    }
    const [a = NaN, c = NaN] = [costs[best - 1], costs[best + 1]];
    const wanted = from + (best + (a - c) / (2 * (a - 2 * least + c))) / 10;
    expect(found.slopes[place], `place ${place}`).toBeCloseTo(wanted, 4);
    counts.told += 1;
  }
  expect(counts.bare).toBeGreaterThan(3);
  expect(counts.own).toBeGreaterThan(8);
  expect(counts.told).toBeGreaterThan(8);
});
