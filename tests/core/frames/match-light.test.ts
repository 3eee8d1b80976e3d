/** Brightness and white of one picture made those of another. */
import { describe, expect, test } from 'vitest';
import { matchLight, placesOn } from '../../../src/core/frames/align/match-light.ts';
import { lots } from './align-pairs.ts';
import { pictureOf } from './made-pictures.ts';

const [COLUMNS, ROWS] = [40, 30];
const all = new Uint8Array(COLUMNS * ROWS).fill(1);

const scene = (seed: number, gains = [1, 1, 1], noise = 0) => {
  const draw = lots(seed);
  const grain = lots(seed + 100);
  return pictureOf(COLUMNS, ROWS, () => {
    const light = [draw(), draw(), draw()].map(
      (value, c) => (2000 + 30000 * value) * gains[c]! * (1 + noise * (grain() - 0.5)),
    );
    return light.map((value) => Math.min(65535, Math.round(value))) as [number, number, number];
  });
};
const gainsOf = (match: ReturnType<typeof matchLight>) => {
  expect(match.found).toBe(true);
  return match.found ? match.gains : [NaN, NaN, NaN];
};

describe('light that one picture lacks beside another', () => {
  test.each([[[0.5, 0.5, 0.5]], [[0.8, 0.6, 1.1]], [[1.6, 1.4, 1.2]]])(
    'is what it was given: %j',
    (given) => {
      const found = gainsOf(matchLight(scene(1, given, 0.02), scene(1), all));
      found.forEach((gain, c) => expect(gain * given[c]!).toBeCloseTo(1, 2));
    },
  );

  test('does not mind that two fifths of the places show something else', () => {
    const to = scene(1);
    const from = scene(1, [0.7, 0.7, 0.7]);
    const other = scene(2, [0.15, 0.4, 1.5]);
    from.pixels.set(other.pixels.subarray(0, 0.4 * from.pixels.length));
    const match = matchLight(from, to, all);
    for (const gain of gainsOf(match)) expect(Math.abs(Math.log2(gain * 0.7))).toBeLessThan(0.05);
    expect(match.found && match.agrees).toBeGreaterThan(0.55);
    expect(match.found && match.agrees).toBeLessThan(0.7);
  });

  test('leaves out what is burnt out, which tells nothing of the light that was there', () => {
    // At three times the light, everything above a third is white.
    const found = gainsOf(matchLight(scene(1, [3, 3, 3]), scene(1), all));
    for (const gain of found) expect(gain * 3).toBeCloseTo(1, 2);
  });

  test('is not told where too little lies on both', () => {
    const few = new Uint8Array(COLUMNS * ROWS).fill(1, 0, 30);
    expect(matchLight(scene(1), scene(1), few)).toEqual({ found: false });
    const black = pictureOf(COLUMNS, ROWS, () => [0, 0, 0]);
    expect(matchLight(black, scene(1), all)).toEqual({ found: false });
  });
});

describe('places of an outline that lie on a picture', () => {
  const frame = { widthPx: 100, heightPx: 100 };

  test('level: those whose four corners do', () => {
    const area = { left: -25, top: 0, width: 100, height: 100 };
    expect([...placesOn(area, frame, 4, 1)]).toEqual([0, 1, 1, 1]);
  });

  test('turned by an eighth: the picture is a diamond, and covers about half', () => {
    const half = Math.SQRT1_2;
    const area = {
      left: -50 * (Math.SQRT2 - 1),
      top: -50 * (Math.SQRT2 - 1),
      width: 100 * Math.SQRT2,
      height: 100 * Math.SQRT2,
      toFrame: { a: half, b: half, x0: 50, y0: 50 - 100 * half },
    };
    const on = placesOn(area, frame, 100, 100);
    expect(on.reduce((sum, one) => sum + one, 0) / 10000).toBeCloseTo(0.49, 1);
    expect([on[0], on[99], on[9900], on[9999], on[5050]]).toEqual([0, 0, 0, 0, 1]);
  });
});
