/** The list of expected frames: what is missing, copied, out of order, of another size or brightness. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { Arrived } from '../../../src/core/frames/expected.ts';
import { expectFrames } from '../../../src/core/frames/expected.ts';
import { fingerprintOf } from '../../../src/core/frames/fingerprint.ts';
import { missingNames } from '../../../src/core/frames/gaps.ts';
import { lightSteps } from '../../../src/core/frames/light-steps.ts';
import { outOfOrder } from '../../../src/core/frames/order.ts';

const pose = (number: number) => `pose_${String(number).padStart(2, '0')}.png`;
const poses = (...numbers: number[]) => numbers.map(pose);

describe('names that are missing', () => {
  test.each<[string, string[], number, string[] | undefined]>([
    ['none', poses(1, 2, 3), 3, []],
    ['in a gap', poses(1, 2, 4, 5), 5, poses(3)],
    ['a gap, and the rest behind', poses(1, 2, 4), 6, poses(3, 5, 6)],
    ['before the first, when that makes it begin at 1', poses(3, 4, 5), 5, poses(1, 2)],
    ['behind the last, when numbers begin at 0', poses(0, 1, 2), 5, poses(3, 4)],
    [
      'by tens, as an animation is numbered',
      ['a0010.exr', 'a0020.exr', 'a0040.exr'],
      4,
      ['a0030.exr'],
    ],
    ['numbers far from 1 go on', ['s101.png', 's102.png'], 4, ['s103.png', 's104.png']],
    ['no numbers in common', ['dawn.png', 'dusk.png'], 4, undefined],
    ['across the tens without padding', ['v8.png', 'v9.png'], 4, ['v10.png', 'v11.png']],
  ])('%s', (_what, names, count, missing) => {
    const told = missingNames(names, count);
    expect(told?.sort()).toEqual(missing?.sort());
  });
});

const put = (values: readonly number[], at: readonly number[], value: number): number[] =>
  values.map((old, i) => (at.includes(i) ? value : old));

describe('light that jumps', () => {
  test('one dark frame and a pair of bright ones are told; even light and slow change are not', () => {
    const even = Array.from({ length: 12 }, () => 0.3);
    expect(lightSteps(even)).toEqual([]);
    expect(lightSteps(put(even, [4], 0.15))).toEqual([
      { index: 4, stops: expect.closeTo(-1, 6) as number },
    ]);
    expect(lightSteps(put(even, [4, 5], 0.6)).map(({ index }) => index)).toEqual([4, 5]);
    expect(lightSteps(put(even, [0], 0.2)).map(({ index }) => index)).toEqual([0]);
    // Dusk falls: a tenth of a stop a frame.
    expect(lightSteps(even.map((light, i) => light * 2 ** (-0.1 * i)))).toEqual([]);
  });

  test('two pictures one after the other are no flicker', () => {
    expect(lightSteps([0.1, 0.1, 0.1, 0.1, 0.5, 0.5, 0.5, 0.5])).toEqual([]);
  });

  test.each(['glasshouse', 'lighthouse', 'kingfisher'])(
    'the %s demo flickers nowhere',
    async (name) => {
      const scene = JSON.parse(readFileSync(`demo-scenes/${name}/scene.json`, 'utf8')) as {
        frames: string[];
      };
      const lights = await Promise.all(
        scene.frames.map(async (file) => {
          const { channels } = await sharp(`demo-scenes/${name}/${file}`).stats();
          return channels.slice(0, 3).reduce((sum, { mean }) => sum + (mean / 255) ** 2.2 / 3, 0);
        }),
      );
      expect(lightSteps(lights)).toEqual([]);
    },
  );
});

describe('order', () => {
  const named = (...numbers: number[]) => numbers.map((number) => ({ name: pose(number) }));
  test.each<[number[], number[]]>([
    [[1, 2, 3, 4], []],
    [[4, 3, 2, 1], []],
    [[1, 5, 2, 3, 4], [1]],
    [[2, 3, 4, 5, 1], [4]],
    [[5, 4, 1, 3, 2], [2]],
  ])('%j: out of place are %j', (order, places) => {
    expect(outOfOrder(named(...order))).toEqual(places);
  });

  test('as few as can be, and without them the rest is in order, against every choice there is', () => {
    const inOrder = (numbers: readonly number[]) =>
      numbers.every((number, i) => i === 0 || (numbers[i - 1] as number) <= number);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 12 }), { maxLength: 9 }), (numbers) => {
        const astray = outOfOrder(named(...numbers));
        const rest = numbers.filter((_, i) => !astray.includes(i));
        expect(inOrder(rest) || inOrder([...rest].reverse())).toBe(true);
        const chosen = Array.from({ length: 2 ** numbers.length }, (_, bits) =>
          numbers.filter((_number, i) => (bits >> i) % 2 === 1),
        );
        const longest = (fits: (some: number[]) => boolean) =>
          Math.max(...chosen.filter(fits).map(({ length }) => length));
        const forwards = numbers.length - longest(inOrder);
        const backwards = numbers.length - longest((some) => inOrder([...some].reverse()));
        // The other way round counts only where most stand the other way round.
        expect(astray).toHaveLength(
          forwards * 2 < numbers.length ? forwards : Math.min(forwards, backwards),
        );
      }),
    );
  });
});

describe('fingerprints', () => {
  const samples = Uint8Array.from({ length: 4 * 3 * 3 }, (_, i) => (i * 37) % 256);
  test('are alike for like pixels, wherever they lie in memory', () => {
    const shifted = new Uint8Array(samples.length + 1);
    shifted.set(samples, 1);
    expect(fingerprintOf(4, 3, shifted.subarray(1))).toBe(fingerprintOf(4, 3, samples));
    expect(fingerprintOf(4, 3, samples)).toMatch(/^[0-9a-f]{16}$/);
  });
  test('differ with one bit and with the shape', () => {
    const marks = new Set([fingerprintOf(4, 3, samples), fingerprintOf(3, 4, samples)]);
    for (let i = 0; i < samples.length; i += 1)
      for (const bit of [1, 128])
        marks.add(
          fingerprintOf(
            4,
            3,
            samples.map((byte, at) => (at === i ? byte ^ bit : byte)),
          ),
        );
    expect(marks.size).toBe(2 + 2 * samples.length);
  });
});

const arrived = (number: number, change: Partial<Arrived> = {}): Arrived => ({
  name: pose(number),
  widthPx: 1200,
  heightPx: 1500,
  meanLight: 0.3,
  fingerprint: `f${number}`,
  ...change,
});
describe('the expected list', () => {
  const frames = [
    arrived(1),
    arrived(2, { widthPx: 600, heightPx: 750 }),
    arrived(4),
    arrived(3),
    arrived(6, { fingerprint: 'f1' }),
    arrived(7, { meanLight: 0.1 }),
    arrived(8),
    arrived(9),
  ];

  test('names how each frame stands', () => {
    const { frames: list, missing } = expectFrames(frames, 9);
    expect(missing).toBe(1);
    const of = (number: number) => list.find(({ name }) => name === pose(number));
    expect(list.map(({ name }) => name)).toEqual(poses(1, 2, 3, 4, 5, 6, 7, 8, 9));
    expect(of(1)).toMatchObject({ index: 0, wrongSize: false, outOfOrder: false });
    expect(of(2)?.wrongSize).toBe(true);
    expect([of(3), of(4)].filter((one) => one?.outOfOrder)).toHaveLength(1);
    expect(of(5)?.index).toBeUndefined();
    expect(of(6)?.copyOf).toBe(pose(1));
    expect(of(7)?.lightStops).toBeCloseTo(Math.log2(1 / 3), 6);
  });
});
