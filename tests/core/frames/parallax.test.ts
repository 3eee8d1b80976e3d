/** Measured parallax between pictures made by formula, so that every displacement is exact. */
import { describe, expect, test } from 'vitest';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { pyramidOf, turned } from '../../../src/core/frames/parallax/plane.ts';
import { motionThrough } from '../../../src/core/frames/parallax/slope.ts';
import {
  histogramOf,
  lenticulesOf,
  levelOf,
  spreadOf,
  stepsOf,
} from '../../../src/core/frames/parallax/summary.ts';
import { trackOf } from '../../../src/core/frames/parallax/track.ts';
import { measure } from './measured-motion.ts';
import { run } from './run.ts';

/** Rough ground: sums of waves of many lengths and turns, so that any displacement is exact. */
const ground = (x: number, y: number): number => {
  let sum = 0;
  for (let i = 0; i < 14; i += 1) {
    const turn = 2.4 * i;
    const length = 5 + 2.7 * i;
    sum += Math.sin((2 * Math.PI * (x * Math.cos(turn) + y * Math.sin(turn))) / length + 1.7 * i);
  }
  return 0.5 + sum / 30;
};
const [WIDTH, HEIGHT] = [320, 240];
/** Left half and right half displaced each by its own; all of it by dy and, towards the corners, by toe. */
const made = (left: number, right: number, dy = 0, toe = 0): Plane => {
  const data = new Float32Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const uv = ((2 * x) / WIDTH - 1) * ((2 * y) / HEIGHT - 1);
      const dx = x < WIDTH / 2 ? left : right;
      data[y * WIDTH + x] = ground(x - dx, y - dy - toe * uv);
    }
  return { width: WIDTH, height: HEIGHT, data };
};
const known = (values: Float32Array) => [...values].filter((value) => !Number.isNaN(value));
const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1] ?? NaN;
/** A lenticule a pixel. */
const SCALE = { lenticulesAcross: WIDTH, keyShift: 0 };

describe('motion between pictures made by formula', () => {
  test.each([0.37, -1.62, 7.25, -23.4])('finds a displacement of %f px to a fiftieth', (dx) => {
    const steps = known(lenticulesOf(measure(made(0, 0), made(dx, dx)), SCALE));
    expect(steps.length).toBeGreaterThan(700);
    expect(Math.abs(median(steps) - dx)).toBeLessThan(0.02);
    expect(steps.filter((s) => Math.abs(s - dx) < 0.05).length / steps.length).toBeGreaterThan(
      0.95,
    );
  });

  test('does not mind another brightness and contrast', () => {
    const other = made(0.6, 0.6);
    const dim = { ...other, data: other.data.map((value) => 0.2 + 0.5 * value) };
    const steps = known(lenticulesOf(measure(made(0, 0), dim), SCALE));
    expect(median(steps)).toBeCloseTo(0.6, 1.7);
  });

  test('believes nothing where there is nothing to see', () => {
    const blank = {
      width: WIDTH,
      height: HEIGHT,
      data: new Float32Array(WIDTH * HEIGHT).fill(0.4),
    };
    expect(known(measure(blank, blank).shift)).toHaveLength(0);
  });

  test('turns with lying ribs: across is then down the frame', () => {
    const [from, to] = [turned(made(0, 0)), turned(made(1.4, 1.4))];
    const motion = measure(turned(from), turned(to), 'lying');
    expect([motion.columns, motion.rows]).toEqual([HEIGHT / 8, WIDTH / 8]);
    expect(median(known(lenticulesOf(motion, SCALE)))).toBeCloseTo(1.4, 1.7);
  });

  test('tells a crooked camera slide and toed-in cameras from the vertical mismatch', () => {
    const level = (dy: number, toe: number) =>
      levelOf(measure(made(0, 0), made(0.5, 0.5, dy, toe)), WIDTH);
    expect(level(0, 0).rise).toBeCloseTo(0, 1.7);
    expect(level(0, 0).keystone).toBeCloseTo(0, 1.5);
    expect(level(0.8, 0).rise).toBeCloseTo(0.8, 1.5);
    expect(level(0, 0.4).keystone).toBeCloseTo(0.4, 1);
  });

  test('finds the uneven step and the slipped window among even ones', () => {
    // The third step is half as long again; before the last frame the window slips by 0.3.
    const places = [0, 1, 2, 3.5, 4.5, 5.5, 6.5];
    const slips = [0, 0, 0, 0, 0, 0, 0.3];
    const frames = places.map((at, i) => made(-0.8 * at + slips[i]!, 0.6 * at + slips[i]!));
    const pairs = frames
      .slice(1)
      .map((to, i) => lenticulesOf(measure(frames[i] as Plane, to), SCALE));
    const steps = stepsOf(pairs);
    expect(steps[0]?.stretch).toBeCloseTo(1, 1.5);
    expect(steps[2]?.stretch).toBeCloseTo(1.5, 1);
    expect(steps[5]?.slip).toBeCloseTo(0.3, 1.2);
    // And the camera's way along its slide, from which the fourth pair is measured again.
    const motions = frames.slice(1).map((to, i) => measure(frames[i] as Plane, to));
    const way = trackOf(motions, WIDTH);
    expect(way?.along[6]).toBeCloseTo(6.5, 0.7);
    const planes = new Map(frames.map((frame, i) => [i, pyramidOf(frame)[0] as Plane]));
    const choices = { index: 2, ribs: 'upright', track: way! } as const;
    const through = known(lenticulesOf(run(motionThrough(planes, motions[2]!, choices)), SCALE));
    expect(through.length).toBeGreaterThan(700);
    const right = through.filter((s) => Math.min(Math.abs(s + 1.2), Math.abs(s - 0.9)) < 0.1);
    expect(right.length / through.length).toBeGreaterThan(0.95);
  });

  test('frames of two pictures are not one camera slide', () => {
    const blank = { columns: 4, rows: 4, placeWidth: 0.25, placeHeight: 0.25 };
    const unknown = { ...blank, shift: new Float32Array(16).fill(NaN), rise: new Float32Array(16) };
    expect(trackOf([unknown, unknown], 32)).toBeUndefined();
  });

  test('parts what is sharp, soft and broken, and takes the moved key plane off', () => {
    const steps = [-2.5, -1.5, -0.05, 0, 0.05, 0.9, 1.0, 1.2, 2.0, 2.1];
    expect(spreadOf(steps)).toMatchObject({
      places: 10,
      sharp: 0.5,
      soft: 0.3,
      broken: 0.2,
      still: 0.3,
    });
    expect(spreadOf([NaN])).toBeUndefined();
    const counted = histogramOf(steps, 0.5);
    expect(counted.reduce((sum, { count }) => sum + count, 0)).toBe(10);
    expect(counted[0]).toEqual({ from: -2.5, to: -2, count: 1 });
    const motion = measure(made(0, 0), made(1.5, 1.5));
    const moved = known(lenticulesOf(motion, { lenticulesAcross: WIDTH, keyShift: 1.5 }));
    expect(median(moved)).toBeCloseTo(0, 1.7);
  });
});
