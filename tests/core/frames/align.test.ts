/**
 * Laying one photograph on another. The truth is the warp that OpenCV was told (align-pairs.ts); what is asked for is half
 * a pixel at the corners, as a median over seeded pairs.
 */
import { describe, expect, test } from 'vitest';
import { chanceOf } from '../../../src/core/frames/align/agree.ts';
import type { PictureMatch } from '../../../src/core/frames/align/match-pictures.ts';
import { matchPictures } from '../../../src/core/frames/align/match-pictures.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import type { PhotoPair } from './align-pairs.ts';
import { exposed, lots, photoPair, planeOf, scene } from './align-pairs.ts';
import { run } from './run.ts';

const names = [
  'glasshouse/glasshouse_05.png',
  'lighthouse/lighthouse_01.png',
  'kingfisher/kingfisher_01.png',
];
const scenes = () => Promise.all(names.map(scene));

const matched = (from: Plane, to: Plane): PictureMatch => run(matchPictures(from, to));

/** How far each corner of the second comes to lie from where it belongs, in pixels of the first; none if refused. */
const missesOf = ({ first, second, truth }: PhotoPair): number[] => {
  const match = matched(planeOf(second), planeOf(first));
  if (!match.found) return [];
  const { a, b, x0, y0 } = match.between;
  return [0, second.width].flatMap((x) =>
    [0, second.height].map((y) => {
      const wanted = truth(x, y);
      return Math.hypot(a * x - b * y + x0 - wanted.x, b * x + a * y + y0 - wanted.y);
    }),
  );
};

const medianOf = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;

const misses = async (count: number, moves: Parameters<typeof photoPair>[3]) => {
  const all = await scenes();
  const found: number[][] = [];
  for (let seed = 1; seed <= count; seed += 1)
    found.push(
      missesOf(
        await photoPair(seed, all[seed % all.length]!, all[(seed + 1) % all.length]!, moves),
      ),
    );
  return found;
};

describe('two photographs of one scene', () => {
  test('are laid on each other within half a pixel at the corners', async () => {
    const found = await misses(5, { zooms: 0.6, turn: 0.35, change: 0.3, stops: 0.8, noise: 2 });
    for (const corners of found) expect(corners).toHaveLength(4);
    expect(medianOf(found.flat())).toBeLessThan(0.5);
    expect(Math.max(...found.flat())).toBeLessThan(2);
  });

  test('turned any way round, at half to twice the size, half changed, in hard noise: still @wider', async () => {
    const found = await misses(30, { zooms: 1, turn: Math.PI, change: 0.55, stops: 1.2, noise: 6 });
    expect(found.filter((corners) => corners.length === 0).length).toBeLessThanOrEqual(3);
    expect(medianOf(found.flat())).toBeLessThan(0.5);
    expect(Math.max(...found.flat())).toBeLessThan(3);
  });

  test('as they are, without a warp, no corner moves', async () => {
    const [picture] = await scenes();
    const one = exposed(picture!, lots(3), [1, 1, 1], 2);
    const match = matched(planeOf(exposed(picture!, lots(4), [0.6, 0.6, 0.6], 2)), planeOf(one));
    expect(match.found).toBe(true);
    if (!match.found) return;
    const { a, b, x0, y0 } = match.between;
    expect(a).toBeCloseTo(1, 4);
    expect(b).toBeCloseTo(0, 4);
    expect(Math.hypot(x0, y0)).toBeLessThan(0.1);
  });
});

describe('pictures that are not of one scene are refused', () => {
  test('three demo scenes, each with each other', async () => {
    const all = (await scenes()).map(planeOf);
    for (const [one, other] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ] as const)
      expect(matched(all[one]!, all[other]!)).toMatchObject({ found: false, why: 'unlike' });
  });

  test('grain on grain, and a bare wall', async () => {
    const [picture] = await scenes();
    const grey = { ...picture!, data: new Uint8Array(picture!.data.length).fill(120) };
    const grain = (seed: number) => planeOf(exposed(grey, lots(seed), [1, 1, 1], 30));
    expect(matched(grain(1), grain(2)).found).toBe(false);
    expect(matched(planeOf(grey), planeOf(picture!))).toMatchObject({ found: false, why: 'plain' });
  });

  test('another scene with the same small label in a corner', async () => {
    const [one, other] = await scenes();
    const [a, b] = [planeOf(one!), planeOf(other!)];
    const label = (plane: Plane): Plane => {
      const data = Float32Array.from(plane.data);
      const draw = lots(9);
      for (let y = 0; y < 10; y += 1)
        for (let x = 0; x < 10; x += 1) {
          const light = draw();
          for (let i = 0; i < 36; i += 1)
            data[(20 + 6 * y + Math.floor(i / 6)) * plane.width + 20 + 6 * x + (i % 6)] = light;
        }
      return { ...plane, data };
    };
    expect(matched(label(a), label(b)).found).toBe(false);
  });
});

describe('agreement by chance', () => {
  test('is counted as it comes out of lots', () => {
    // Four of twenty random pairs near one of the hypotheses of two: simulated with every share of the field.
    const draw = lots(5);
    const share = 0.05;
    let total = 0;
    const rounds = 4000;
    for (let round = 0; round < rounds; round += 1) {
      // A hypothesis takes two pairs; each of the other 18 agrees with probability `share`.
      const others = Array.from({ length: 18 }, draw).filter((value) => value < share).length;
      total += others >= 3 ? 1 : 0;
    }
    // 190 hypotheses, each tested at 18 numbers of agreeing pairs: the bound holds for what chance brings.
    const expected = Math.log10((190 * total) / rounds);
    expect(chanceOf(20, 5, share)).toBeGreaterThan(expected);
    expect(chanceOf(20, 5, share)).toBeLessThan(expected + 2.5);
  });
});
