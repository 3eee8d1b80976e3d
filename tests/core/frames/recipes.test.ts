/** Recipes against tables worked by hand, and what must hold for all of them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Recipe, SlotContent } from '../../../src/core/frames/recipes.ts';
import { mostGuardSlots } from '../../../src/core/frames/flip-ahead.ts';
import {
  advisedGuardSlots,
  compileSlots,
  crossShares,
  ghostBeyond,
  swayFrames,
} from '../../../src/core/frames/recipes.ts';

/** One word a slot: "a", "a+b" for halves, "a3b1" for three parts to one, or the plain tone. */
const word = ({ parts, plain }: SlotContent): string => {
  const [first, second] = parts;
  if (first === undefined) return plain ?? '';
  if (second === undefined) return first.frame;
  if (first.weight === second.weight) return `${first.frame}+${second.frame}`;
  return `${first.frame}${first.weight * 4}${second.frame}${second.weight * 4}`;
};
const shown = (
  recipe: Recipe | undefined,
  frames: string,
  slots: number,
  byHand?: readonly string[],
): string => compileSlots(recipe, Array.from(frames), slots, byHand).map(word).join(' ');

const flip = (
  pictures: string,
  guardSlots: number,
  guard: 'mean' | 'grey' | 'white' | 'black' = 'mean',
): Recipe => ({ kind: 'flip', pictures: Array.from(pictures), guardSlots, guard });
const change = (second: string, crossAt: number, crossWidth: number): Recipe => ({
  kind: 'change',
  second: Array.from(second),
  crossAt,
  crossWidth,
});

describe('worked tables', () => {
  test.each<[string, Recipe | undefined, string, number, string]>([
    ['depth', undefined, 'abcd', 4, 'a b c d'],
    ['two pictures, two guards', flip('ab', 2), 'ab', 8, 'a a a a+b a+b b b b'],
    ['two pictures, no guard', flip('ab', 0), 'ab', 5, 'a a a b b'],
    ['in the order chosen', flip('ca', 1), 'abc', 5, 'c c c+a a a'],
    ['three on twelve', flip('abc', 1), 'abc', 12, 'a a a a a+b b b b b+c c c c'],
    ['four on black', flip('abcd', 1, 'black'), 'abcd', 11, 'a a black b b black c c black d d'],
    ['guards give way to the pictures', flip('abc', 9, 'grey'), 'abc', 5, 'a grey b grey c'],
    ['as many slots as pictures', flip('abc', 1), 'abc', 3, 'a b c'],
    ['sway, even', { kind: 'sway' }, 'abc', 6, 'a b c c b a'],
    ['sway, odd', { kind: 'sway' }, 'abc', 5, 'a b c b a'],
    ['sway, held', { kind: 'sway' }, 'abc', 12, 'a a b b c c c c b b a a'],
    ['moments, held evenly', { kind: 'animation' }, 'abc', 6, 'a a b b c c'],
    ['change at once', change('cd', 0.5, 0), 'abcd', 4, 'a a d d'],
    // Slots' middles at 1/8, 3/8, 5/8, 7/8: over the whole zone that is the share of the second.
    ['change over all', change('b', 0.5, 1), 'ab', 2, 'a3b1 a1b3'],
    ['change over the middle', change('b', 0.5, 0.5), 'ab', 4, 'a a3b1 a1b3 b'],
    ['change, early', change('b', 0.25, 0), 'ab', 4, 'a b b b'],
  ])('%s', (_, recipe, frames, slots, expected) => {
    expect(shown(recipe, frames, slots)).toBe(expected);
  });

  test('what lacks a picture or a set is spread evenly, so that no slot is empty', () => {
    expect(shown(flip('xy', 1), 'ab', 4)).toBe('a a b b');
    expect(shown(flip('ax', 1), 'ab', 4)).toBe('a a a a');
    expect(shown(change('ab', 0.5, 0), 'ab', 4)).toBe('a a b b');
    expect(shown(change('', 0.5, 0), 'ab', 4)).toBe('a a b b');
    expect(shown(flip('ab', 1), '', 4)).toBe('');
  });

  test('a choice by hand wins in its slot alone, over a mix too', () => {
    expect(shown(flip('ab', 2), 'abc', 6, ['', '', 'c', '', '', 'gone'])).toBe('a a c a+b b b');
  });
});

const ids = (count: number) => Array.from({ length: count }, (_, i) => `f${i}`);
const recipes = (frames: readonly string[]): fc.Arbitrary<Recipe> =>
  fc.oneof(
    fc.record({
      kind: fc.constant('flip' as const),
      pictures: fc.array(fc.constantFrom(...frames, ''), { minLength: 2, maxLength: 4 }),
      guardSlots: fc.nat(40),
      guard: fc.constantFrom('mean' as const, 'grey' as const, 'white' as const, 'black' as const),
    }),
    fc.constant({ kind: 'sway' as const }),
    fc.constant({ kind: 'animation' as const }),
    fc.record({
      kind: fc.constant('change' as const),
      second: fc.subarray([...frames]),
      crossAt: fc.double({ min: 0, max: 1, noNaN: true }),
      crossWidth: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
  );

describe('for any frames and slots', () => {
  test('every slot is filled: known frames whose weights sum to 1, or a plain tone', () => {
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 40 })
          .chain((count) => fc.tuple(fc.constant(ids(count)), recipes(ids(count)))),
        fc.integer({ min: 1, max: 60 }),
        ([frames, recipe], slots) => {
          const contents = compileSlots(recipe, frames, slots);
          expect(contents).toHaveLength(slots);
          for (const { parts, plain } of contents) {
            expect(parts.length).toBeLessThanOrEqual(2);
            expect(parts.length === 0).toBe(plain !== undefined);
            for (const { frame, weight } of parts) {
              expect(frames).toContain(frame);
              expect(weight).toBeGreaterThan(0);
            }
            if (parts.length > 0)
              expect(parts.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
          }
        },
      ),
    );
  });

  test('a sway is its own mirror image, starts and ends on the first frame, moves by whole steps', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 60 }), (n, slots) => {
        const sway = swayFrames(n, slots);
        expect([...sway].reverse()).toEqual(sway);
        // One slot there is too little to keep both ends: then it is the middle frame.
        if (slots > 2) expect(sway[0]).toBe(0);
        const there = sway.slice(0, Math.ceil(slots / 2));
        expect(there.every((frame, i) => i === 0 || frame >= (there[i - 1] as number))).toBe(true);
      }),
    );
  });

  test('pictures of a flip have equal room to within a slot, and the guards asked for where they fit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 4 }),
        fc.integer({ min: 4, max: 60 }),
        fc.nat(12),
        (pictures, slots, guards) => {
          const frames = ids(pictures);
          const contents = compileSlots(
            { kind: 'flip', pictures: frames, guardSlots: guards, guard: 'white' },
            frames,
            slots,
          );
          const room = frames.map(
            (id) => contents.filter(({ parts }) => parts[0]?.frame === id).length,
          );
          expect(Math.max(...room) - Math.min(...room)).toBeLessThanOrEqual(1);
          expect(Math.min(...room)).toBeGreaterThan(0);
          expect(contents.filter(({ plain }) => plain === 'white')).toHaveLength(
            (pictures - 1) *
              Math.min(guards, mostGuardSlots({ pictures, guardSlots: guards, viewSlots: slots })),
          );
        },
      ),
    );
  });

  test('a crossing never falls and, where it has room, is half at its middle on average', () => {
    expect(crossShares(4, 0.5, 1)).toEqual([1 / 8, 3 / 8, 5 / 8, 7 / 8]);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (slots, at, width) => {
          const shares = crossShares(slots, at, width);
          expect(shares.every((s, i) => i === 0 || s >= (shares[i - 1] as number))).toBe(true);
          // What comes before the middle and what comes after it mirror one another.
          const mirrored = crossShares(slots, 1 - at, width).reverse();
          if (width > 0)
            shares.forEach((s, i) => expect(s + (mirrored[i] as number)).toBeCloseTo(1, 6));
        },
      ),
    );
  });
});

describe('guards from the crosstalk matrix', () => {
  /** An eye sees its slot and `side` of each neighbour at distances 1, 2 …, round the zone. */
  const matrixOf = (count: number, ...side: number[]) =>
    Array.from({ length: count }, (_, view) => {
      const row = Array.from({ length: count }, () => 0);
      row[view] = 1 - 2 * side.reduce((sum, share) => sum + share, 0);
      side.forEach((share, i) => {
        row[(view + i + 1) % count] = share;
        row[(view - i - 1 + count) % count] = share;
      });
      return row;
    });

  test.each([
    [[], 0],
    [[0.01], 0],
    [[0.1], 1],
    [[0.2, 0.05], 2],
    // 0.015 + 0.015 from beyond one slot is a ghost of three in a hundred.
    [[0.1, 0.015, 0.015], 2],
  ])('sides %j want %d', (side, guards) => {
    expect(advisedGuardSlots(matrixOf(12, ...side))).toBe(guards);
  });

  test('what lies beyond a guard is summed to one side only', () => {
    const matrix = matrixOf(12, 0.1, 0.04);
    expect(ghostBeyond(matrix, 0)).toBeCloseTo(0.14, 12);
    expect(ghostBeyond(matrix, 1)).toBeCloseTo(0.04, 12);
    expect(ghostBeyond(matrix, 2)).toBe(0);
  });
});
