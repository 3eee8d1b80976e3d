/** Softer places of a print, on pictures made here: frames that move from view to view, seen with a known blur. */
import { describe, expect, test } from 'vitest';
import { mix } from '../../../src/core/lens/mix.ts';
import { pictureOfPlaces } from '../../../src/core/mend/photo/cells.ts';
import { liftedParts } from '../../../src/core/mend/photo/lifted.ts';
import { patternOf } from '../../../src/core/mend/photo/look.ts';
import { SOFTER, softerBy } from '../../../src/core/mend/photo/softer.ts';
import type { SeenFrames } from '../../../src/core/mend/seen.ts';
import { randomOf } from '../../bench/shared/random.mjs';

const [WIDE, HIGH, VIEWS, WINDOW] = [160, 120, 12, 14];
/** Half a band across, a third along. */
const plane = { middle: 0.4, across: 0.5, along: 0.33 };
const plan = { spot: 0.15, dot: 0.1 };

/** Spots of light, 4 places wide, that move by half a place from view to view. */
const frames = (): SeenFrames => {
  const random = randomOf(7);
  const wide = WIDE + VIEWS;
  const spots = Float64Array.from({ length: (wide >> 2) * (HIGH >> 2) }, () => random());
  const slots = Array.from({ length: VIEWS }, (_, view) =>
    Uint16Array.from({ length: WIDE * HIGH * 3 }, (__, at) => {
      const [x, y] = [(Math.floor(at / 3) % WIDE) + view / 2, Math.floor(at / 3 / WIDE)];
      const [left, part] = [Math.floor(x / 4), x / 4 - Math.floor(x / 4)];
      const row = (y >> 2) * (wide >> 2);
      return (
        6000 + 50_000 * (spots[row + left]! * (1 - part) + (spots[row + left + 1] ?? 0) * part)
      );
    }),
  );
  return { across: WIDE, along: HIGH, lying: false, slots };
};
const seen = frames();

/** @param more spread beyond the plan at a place, −½ … ½ of the picture. */
const softness = (more: (x: number, y: number) => number) => {
  const random = randomOf(11);
  const photo = pictureOfPlaces(seen, (x, y) => {
    const u = plane.middle + plane.across * x + plane.along * y;
    return mix(u - Math.floor(u), VIEWS, { ...plan, spot: Math.hypot(plan.spot, more(x, y)) });
  });
  for (const channel of photo.channels)
    for (let i = 0; i < channel.length; i += 1) channel[i]! += 0.01 * (random() - 0.5);
  const { sums, pattern } = patternOf(photo, WINDOW);
  const { grid } = sums;
  return {
    grid,
    softer: softerBy({ looked: { sums, grid, pattern }, plane, frames: seen, blur: plan }),
  };
};
const bubble = (x: number, y: number) => Math.hypot((x - 0.2) * WIDE, (y + 0.15) * HIGH) < 24;

describe('a print with a softer place', () => {
  test.each([
    ['as planned elsewhere', 0, 0.4],
    ['soft all over', 0.45, 0.85],
  ])('%s: it is found there, and nowhere else', (_, all, there) => {
    const { grid, softer } = softness((x, y) => (bubble(x, y) ? there : all));
    const parts = liftedParts(grid, softer);
    expect(parts).toHaveLength(1);
    expect(Math.abs(parts[0]!.x - 0.2)).toBeLessThan(0.08);
    expect(Math.abs(parts[0]!.y + 0.15)).toBeLessThan(0.08);
  });

  test.each([0.05, 0.37, 0.9])('alike everywhere, by %d: nothing is found', (all) => {
    const { grid, softer } = softness(() => all);
    expect(Math.max(...softer.filter((one) => !Number.isNaN(one)))).toBeLessThan(SOFTER);
    expect(liftedParts(grid, softer)).toEqual([]);
  });

  test('sharper than the rest: that is no lifted place', () => {
    const { grid, softer } = softness((x, y) => (bubble(x, y) ? 0 : 0.45));
    expect(liftedParts(grid, softer).filter(({ x, y }) => bubble(x, y))).toEqual([]);
  });
});
