/** Which picture of a flip lies straight ahead, and where it changes, by hand-counted slots. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Ahead } from '../../../src/core/frames/flip-ahead.ts';
import {
  aheadZones,
  flipChanges,
  flipRuns,
  inZone,
  reversedAhead,
} from '../../../src/core/frames/flip-ahead.ts';
import { compileSlots } from '../../../src/core/frames/recipes.ts';

const two = { pictures: 2, guardSlots: 2, viewSlots: 12 };

describe('a flip of two in twelve slots, two of them guards', () => {
  test('has five slots a picture', () => {
    expect(flipRuns(two)).toEqual([
      { picture: 0, from: 0, to: 5 },
      { picture: 1, from: 7, to: 12 },
    ]);
  });

  test.each<[Ahead | undefined, number]>([
    [undefined, 0],
    [{ show: 'change', at: 0 }, 0],
    // Slots 0 … 5 of 12: their middle lies at 2.5 / 12 − ½ of a zone.
    [{ show: 'picture', at: 0 }, 0.5 - 2.5 / 12],
    [{ show: 'picture', at: 1 }, -(9.5 / 12 - 0.5)],
    [{ show: 'moved', zones: 0.1 }, 0.1],
    [{ show: 'picture', at: 3 }, 0],
  ])('%j moves the views by %f zones', (ahead, zones) => {
    expect(aheadZones(ahead, two)).toBeCloseTo(zones, 12);
  });

  test('changes in the middle and at the end of the zone, and moves as a whole', () => {
    expect(flipChanges(two, 0)).toEqual([
      { from: 0, to: 1, zones: 0 },
      { from: 1, to: 0, zones: -0.5 },
    ]);
    const [first, last] = flipChanges(two, 0.25);
    expect(first?.zones).toBeCloseTo(0.25, 12);
    expect(last?.zones).toBeCloseTo(-0.25, 12);
  });
});

const anyFlip = fc.record({
  pictures: fc.integer({ min: 2, max: 4 }),
  guardSlots: fc.integer({ min: 0, max: 8 }),
  viewSlots: fc.integer({ min: 2, max: 40 }),
});

describe('any flip', () => {
  test('its runs are the slots that the recipe fills with one picture', () => {
    fc.assert(
      fc.property(anyFlip, (flip) => {
        const names = ['a', 'b', 'c', 'd'].slice(0, flip.pictures);
        const { guardSlots, viewSlots } = flip;
        const recipe = { kind: 'flip', pictures: names, guardSlots, guard: 'black' } as const;
        const slots = compileSlots(recipe, names, viewSlots);
        const filled = new Array<string>(viewSlots).fill('');
        for (const { picture, from, to } of flipRuns(flip))
          filled.fill(names[picture] as string, from, to);
        expect(slots.map(({ parts }) => parts[0]?.frame ?? '')).toEqual(filled);
      }),
    );
  });

  test('what is chosen lies straight ahead, and in the reversed flip too', () => {
    fc.assert(
      fc.property(anyFlip, fc.integer({ min: 0, max: 2 }), (flip, at) => {
        if (flip.viewSlots < flip.pictures || at + 1 >= flip.pictures) return;
        const change: Ahead = { show: 'change', at };
        const there = flipChanges(flip, aheadZones(change, flip)).find(({ from }) => from === at);
        expect(there?.zones).toBeCloseTo(0, 9);
        // Seen the other way round, all lies on the other side.
        const turned = aheadZones(reversedAhead(change, flip.pictures), flip);
        const even = flip.viewSlots % flip.pictures === 0 && flip.guardSlots === 0;
        if (even) expect(inZone(turned + aheadZones(change, flip))).toBeCloseTo(0, 9);
      }),
    );
  });
});
