import { describe, expect, test } from 'vitest';
import { PAPER_WHITE, noticeableIndex } from '../../../src/core/colour/just-noticeable.ts';
import type { LightGrid } from '../../../src/core/plan/ghost-map.ts';
import { ghostMap, ghostPlaces } from '../../../src/core/plan/ghost-map.ts';

const [columns, rows] = [90, 72];
const grid = (light: (x: number, y: number) => number): LightGrid =>
  Float32Array.from({ length: columns * rows }, (_, i) =>
    light((i % columns) / columns, Math.floor(i / columns) / rows),
  );
const even = grid(() => 0.5);
/** A bright square at the upper left of black. */
const square = grid((x, y) => (x < 0.22 && y < 0.22 ? 1 : 0));
const slope = grid((x) => 0.2 + 0.6 * x);
const size = { columns, rows };
const scene = { slots: [0, 0, 1, 1], belongs: [0, 1], own: 0 };

describe('the ghost of a square on even grey', () => {
  const leak = 0.1;
  const map = ghostMap({
    ...scene,
    contents: [even, square],
    wanted: even,
    shares: [0.5, 1 - 0.5 - leak, leak / 2, leak / 2],
  });

  test('stands where the square is, as many steps as the standard function counts', () => {
    const seen = 0.5 * (1 - leak);
    const mean = square.reduce((sum, light) => sum + light, 0) / square.length;
    // An even picture keeps no gain: the veil is the mean of what is seen.
    const [inside, veil] = [seen + leak, seen + leak * mean];
    const steps = noticeableIndex(inside * PAPER_WHITE) - noticeableIndex(veil * PAPER_WHITE);
    expect(steps).toBeGreaterThan(10);
    expect(map.steps[0]).toBeCloseTo(steps, 1);
    expect(map.from[0]).toBe(1);
  });

  test('its place is the worst, and lies at the upper left', () => {
    const [worst, second] = ghostPlaces(size, map);
    expect(worst?.from).toBe(1);
    expect(worst?.x).toBeLessThan(0.22);
    expect(worst?.y).toBeLessThan(0.22);
    expect(worst!.steps).toBeGreaterThanOrEqual(second!.steps);
  });

  test('grows with the leak, and is none without', () => {
    const worstOf = (part: number) =>
      ghostPlaces(
        size,
        ghostMap({
          ...scene,
          contents: [even, square],
          wanted: even,
          shares: [0.5, 0.5 - part, part / 2, part / 2],
        }),
      )[0]!.steps;
    expect(worstOf(0)).toBe(0);
    expect(worstOf(0.02)).toBeLessThan(worstOf(0.05));
    expect(worstOf(0.05)).toBeLessThan(worstOf(0.2));
  });
});

test('what both pictures have in common is no ghost, nor is an even veil', () => {
  const lighter = slope.map((light) => 0.3 + 0.5 * light);
  for (const other of [lighter, even]) {
    const map = ghostMap({
      ...scene,
      contents: [slope, other],
      wanted: slope,
      shares: [0.4, 0.4, 0.1, 0.1],
    });
    expect(Math.max(...map.steps)).toBeLessThan(0.05);
  }
});

test('a ghost that was taken out beforehand is none, and one taken out twice over is its negative', () => {
  const leak = 0.1;
  const taken = (part: number) => slope.map((light, i) => light - (part * square[i]!) / (1 - leak));
  const worst = (part: number) =>
    ghostPlaces(
      size,
      ghostMap({
        ...scene,
        contents: [taken(part), square],
        shares: [(1 - leak) / 2, (1 - leak) / 2, leak / 2, leak / 2],
        wanted: slope,
      }),
    )[0]!.steps;
  expect(worst(leak)).toBeLessThan(0.05);
  expect(worst(0)).toBeGreaterThan(10);
  expect(worst(2 * leak)).toBeGreaterThan(10);
});
