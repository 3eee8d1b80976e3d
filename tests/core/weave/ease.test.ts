/** Contrast taken away in some places of a picture: linear light drawn to the picture's own mean, without an edge. */
import { describe, expect, test } from 'vitest';
import { easeMasks, MOST_EASE } from '../../../src/core/plan/ghost-ease.ts';
import { EASE_CELLS, easeFrame, easedGrid } from '../../../src/core/weave/ease.ts';

const [columns, rows] = [90, 180];
const none = (): number[] => new Array<number>(EASE_CELLS ** 2).fill(0);
const maskOf = (x: number, y: number, taken: number) => {
  const mask = none();
  mask[y * EASE_CELLS + x] = taken;
  return mask;
};
/** Stripes of two tones, another pair in each colour. */
const stripes = () =>
  Uint16Array.from({ length: columns * rows * 3 }, (_, i) =>
    Math.floor(i / 3) % 2 === 0 ? 60000 - 9000 * (i % 3) : 2000 + 3000 * (i % 3),
  );
const frameOf = (pixels: Uint16Array) => ({ pixels, columns, rows });

describe('eased contrast', () => {
  test('with nothing taken away every bit stays', () => {
    const frame = frameOf(stripes());
    easeFrame(frame, none());
    expect(frame.pixels).toEqual(stripes());
  });

  test('in a place that is asked for, and far from it nowhere', () => {
    const frame = frameOf(stripes());
    easeFrame(frame, maskOf(2, 6, 40));
    const before = stripes();
    const at = (x: number, y: number) => (Math.floor(y) * columns + Math.floor(x)) * 3;
    // Beside the middle of the place, where a tenth of a cell lies between two samples.
    const [left, right] = [at(2.5 * 10 - 1, 6.5 * 20), at(2.5 * 10, 6.5 * 20)];
    for (const c of [0, 1, 2]) {
      const difference = (pixels: Uint16Array) => pixels[left + c]! - pixels[right + c]!;
      expect(difference(frame.pixels) / difference(before)).toBeGreaterThan(0.595);
      expect(difference(frame.pixels) / difference(before)).toBeLessThan(0.63);
    }
    const far = at(60, 40);
    expect(frame.pixels.slice(far, far + 30)).toEqual(before.slice(far, far + 30));
    const first = frame.pixels.findIndex((light, i) => light !== before[i]);
    // It reaches to the middles of the cells around it.
    expect(Math.floor(first / 3 / columns)).toBeGreaterThanOrEqual(5.5 * 20 - 1);
  });

  test('has no edge: a black line on grey changes by little from sample to sample', () => {
    const grid = Float32Array.from({ length: columns * rows }, (_, i) => (i < 20 ? 1 : 0.25));
    const eased = easedGrid(grid, { columns, rows }, maskOf(4, 4, MOST_EASE));
    const line = eased.slice(90 * columns, 91 * columns);
    for (let x = 1; x < columns; x += 1)
      expect(Math.abs(line[x]! - line[x - 1]!)).toBeLessThan(0.001);
  });

  test('a grid of luminance is eased as its colours are', () => {
    const frame = frameOf(stripes());
    const weights = [0.2126, 0.7152, 0.0722];
    const luminance = (pixels: Uint16Array) =>
      Float32Array.from(
        { length: columns * rows },
        (_, i) => weights.reduce((sum, w, c) => sum + w * pixels[3 * i + c]!, 0) / 65535,
      );
    const mask = maskOf(1, 1, 50);
    const grid = easedGrid(luminance(frame.pixels), { columns, rows }, mask);
    easeFrame(frame, mask);
    const wanted = luminance(frame.pixels);
    grid.forEach((light, i) => expect(Math.abs(light - wanted[i]!)).toBeLessThan(2e-5));
  });
});

describe('masks against ghosts', () => {
  const place = (steps: number, from: number) => ({ x: 2.5 / 9, y: 6.5 / 9, steps, from });
  const cell = 6 * EASE_CELLS + 2;

  test('take from the picture that shines through, as much as is too much of it', () => {
    const masks = easeMasks([{ picture: 0, places: [place(1.2, 1)] }], new Map());
    expect([...masks.keys()]).toEqual([1]);
    // 0.9 of 1.2 steps are left by three quarters of the contrast.
    expect(masks.get(1)?.[cell]).toBe(25);
    expect(masks.get(1)?.filter((taken) => taken > 0)).toHaveLength(1);
    const again = easeMasks([{ picture: 0, places: [place(1.0, 1)] }], masks);
    expect(again.get(1)?.[cell]).toBe(33);
  });

  test('never take more than leaves a picture, and nothing where no ghost is seen', () => {
    expect(easeMasks([{ picture: 0, places: [place(40, 1)] }], new Map()).get(1)?.[cell]).toBe(
      MOST_EASE,
    );
    expect(easeMasks([{ picture: 0, places: [place(0.5, 1)] }], new Map()).size).toBe(0);
  });
});
