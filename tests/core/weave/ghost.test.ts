/**
 * Ghost removal: against D = (I − cJ) / (1 − c²), undone by a leak written out here, in any bands,
 * and never clipped where it says so.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FrameSlice, SliceStack } from '../../../src/core/weave/band.ts';
import type { GhostTrim } from '../../../src/core/weave/ghost.ts';
import {
  MOST_LEAK,
  inverseTaps,
  ribsReached,
  seenSlices,
  trimSlices,
} from '../../../src/core/weave/ghost.ts';

const FULL = 65535;

const slice = (columns: number, rows: number, light: (i: number) => number): FrameSlice => ({
  columns,
  rows,
  firstRow: 0,
  pixels: Uint16Array.from({ length: columns * rows * 3 }, (_, i) => Math.round(FULL * light(i))),
});

const flat = (light: number) => slice(6, 2, () => light);

/** Light of a slot at a rib (row 0, channel 0), 0 … 1. */
const at = (stack: SliceStack, slot: number, index = 0) =>
  (stack.frames[stack.slots[slot] as number]?.pixels[index] as number) / FULL;

describe('two pictures by turns', () => {
  it.each([0.05, 0.1, 0.2, 0.3, 0.45])('become D = (I − cJ) / (1 − c²) at c = %d', (leak) => {
    const [i, j] = [0.6, 0.5];
    const { stack, clipped } = trimSlices(
      { frames: [flat(i), flat(j)], slots: [0, 1] },
      'upright',
      {
        leak,
        reachSlots: 1,
        lift: 0,
      },
    );
    // The closed form: what solves I = D_I + c D_J, J = D_J + c D_I.
    expect(Math.abs(at(stack, 0) - (i - leak * j) / (1 - leak ** 2))).toBeLessThan(2e-5);
    expect(Math.abs(at(stack, 1) - (j - leak * i) / (1 - leak ** 2))).toBeLessThan(2e-5);
    expect(clipped.every(({ low, high }) => low + high === 0)).toBe(true);
  });

  it('of six slots each, half a zone apart, become the same', () => {
    const slots = Array.from({ length: 12 }, (_, slot) => (slot < 6 ? 0 : 1));
    const trim = { leak: 0.25, reachSlots: 6, lift: 0 };
    const { stack } = trimSlices({ frames: [flat(0.7), flat(0.4)], slots }, 'lying', trim);
    slots.forEach((picture, slot) => {
      const [own, other] = picture === 0 ? [0.7, 0.4] : [0.4, 0.7];
      expect(Math.abs(at(stack, slot) - (own - 0.25 * other) / (1 - 0.25 ** 2))).toBeLessThan(2e-5);
    });
  });

  it('count what is cut off at black and at white, by picture', () => {
    // I = 0 beside J = 1 is −c / (1 − c²): below black in every sample; J is 1 / (1 − c²): above white.
    const { clipped } = trimSlices({ frames: [flat(0), flat(1)], slots: [0, 1] }, 'upright', {
      leak: 0.2,
      reachSlots: 1,
      lift: 0,
    });
    expect(clipped).toEqual([
      { low: 36, high: 0, samples: 36 },
      { low: 0, high: 36, samples: 36 },
    ]);
  });
});

it('sums its taps over both sides to 1 / (1 + c), and refuses a leak that has no inverse', () => {
  for (const leak of [0, 0.1, 0.3, MOST_LEAK]) {
    const [own, ...beside] = inverseTaps(leak) as [number, ...number[]];
    const sum = own + 2 * beside.reduce((all, tap) => all + tap, 0);
    expect(Math.abs(sum - 1 / (1 + leak))).toBeLessThan(1e-5);
  }
  expect(() => inverseTaps(1)).toThrow(/leak: expected from 0 to below 1, received 1/);
});

const stacks = fc
  .record({
    slots: fc.integer({ min: 2, max: 7 }),
    columns: fc.integer({ min: 9, max: 14 }),
    leak: fc.double({ min: 0, max: MOST_LEAK, noNaN: true }),
    seed: fc.integer({ min: 1, max: 1e6 }),
    ribs: fc.constantFrom('upright' as const, 'lying' as const),
    far: fc.boolean(),
  })
  .map(({ slots, columns, leak, seed, ribs, far }) => {
    const [wide, high] = ribs === 'upright' ? [columns, 2] : [2, columns];
    // A hash that looks random: fractional part of a sine (common practice).
    const noise = (i: number): number => Math.abs((Math.sin(i * 12.9898 + seed) * 43758.5453) % 1);
    const frames = Array.from({ length: slots }, (_, f) =>
      slice(wide, high, (i) => noise(i + f * 999)),
    );
    const stack: SliceStack = { frames, slots: frames.map((_, f) => f) };
    return { stack, ribs, columns, leak, reachSlots: far ? Math.max(1, slots >> 1) : 1 };
  });

/** The print as one line of places for a row and channel: place m under a rib shows view N − 1 − m. */
const lineOf = (stack: SliceStack, ribs: string, columns: number): number[] => {
  const count = stack.slots.length;
  return Array.from({ length: columns * count }, (_, place) => {
    const rib = Math.floor(place / count);
    const slot = count - 1 - (place % count);
    return at(stack, slot, ribs === 'upright' ? rib * 3 : rib * 6);
  });
};

describe('any stack of pictures', () => {
  it('is seen as it was meant, where it was kept from clipping', () => {
    fc.assert(
      fc.property(stacks, ({ stack, ribs, columns, leak, reachSlots }) => {
        const trim: GhostTrim = { leak, reachSlots, lift: leak };
        const { stack: printed, clipped } = trimSlices(stack, ribs, trim);
        expect(clipped.every(({ low, high }) => low + high === 0)).toBe(true);
        const meant = lineOf(stack, ribs, columns);
        const dots = lineOf(printed, ribs, columns);
        const margin = ribsReached(trim, stack.slots.length) * stack.slots.length + reachSlots;
        // A leak of its own, not the studio's: each place with those r away on either side.
        for (let i = margin; i < meant.length - margin; i += 1) {
          const beside = (dots[i - reachSlots] as number) + (dots[i + reachSlots] as number);
          const seen = (dots[i] as number) + (leak / 2) * beside;
          // b + (1 − b) I with b = c; 16-bit rounding of three samples.
          expect(Math.abs(seen - (leak + (1 - leak) * (meant[i] as number)))).toBeLessThan(4e-5);
        }
      }),
      { numRuns: 60, seed: 6 },
    );
  });

  it('is seen by the studio as by that leak', () => {
    fc.assert(
      fc.property(stacks, ({ stack, ribs, columns, leak, reachSlots }) => {
        const dots = lineOf(stack, ribs, columns);
        const seen = lineOf(seenSlices(stack, ribs, { leak, reachSlots }), ribs, columns);
        for (let i = reachSlots; i < dots.length - reachSlots; i += 1) {
          const beside = (dots[i - reachSlots] as number) + (dots[i + reachSlots] as number);
          const expected = ((dots[i] as number) + (leak / 2) * beside) / (1 + leak);
          expect(Math.abs((seen[i] as number) - expected)).toBeLessThan(2e-5);
        }
      }),
      { numRuns: 30, seed: 7 },
    );
  });

  it('under lying ribs comes out the same from a part of its rows, with those it reaches beside them', () => {
    fc.assert(
      fc.property(stacks, ({ stack, leak, reachSlots }) => {
        const rows = 40;
        const trim: GhostTrim = { leak, reachSlots, lift: 0 };
        const tall: SliceStack = {
          ...stack,
          frames: stack.frames.map((_, f) => slice(2, rows, (i) => ((i * (f + 3)) % 17) / 16)),
        };
        const beside = ribsReached(trim, stack.slots.length);
        const [first, count] = [Math.max(0, 15 - beside), 4 + 2 * beside];
        const part = {
          ...tall,
          frames: tall.frames.map((frame) => ({
            ...frame,
            firstRow: first,
            pixels: frame.pixels.slice(first * 6, (first + count) * 6),
          })),
        };
        const whole = trimSlices(tall, 'lying', trim).stack;
        const band = trimSlices(part, 'lying', trim).stack;
        for (let slot = 0; slot < stack.slots.length; slot += 1)
          for (let row = 15; row < 19; row += 1)
            for (let i = 0; i < 6; i += 1)
              expect(at(band, slot, (row - first) * 6 + i)).toBe(at(whole, slot, row * 6 + i));
      }),
      { numRuns: 20, seed: 8 },
    );
  });
});
