/** Which picture of a flip lies straight ahead, and where it changes, by hand-counted slots. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Ahead } from '../../../src/core/frames/flip-ahead.ts';
import { aheadZones, flipChanges, flipRuns, movedTo } from '../../../src/core/frames/flip-ahead.ts';
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
    // The end of the zone comes into view and gets guards of its own: slots 0 … 3 of 12, whose middle lies at
    // 2 / 12 − ½ of a zone, and 6 … 9, at 8 / 12 − ½.
    [{ show: 'picture', at: 0 }, 0.5 - 2 / 12],
    [{ show: 'picture', at: 1 }, 0.5 - 8 / 12],
    [{ show: 'moved', zones: 0.1 }, 0.1],
    [{ show: 'change', at: 1 }, 0],
    [{ show: 'picture', at: 3 }, 0],
  ])('%j moves the views by %f zones', (ahead, zones) => {
    expect(aheadZones({ ...two, ahead })).toBeCloseTo(zones, 12);
  });

  test('changes in the middle and at the end of the zone, and moves as a whole', () => {
    expect(flipChanges(two)).toEqual([
      { from: 0, to: 1, zones: 0 },
      { from: 1, to: 0, zones: -0.5 },
    ]);
    const ahead = { show: 'picture', at: 0 } as const;
    expect(flipRuns({ ...two, ahead }).map(({ from, to }) => [from, to])).toEqual([
      [0, 4],
      [6, 10],
    ]);
    // Both changes are alike now, a quarter of the zone to either side of the picture.
    const [first, last] = flipChanges({ ...two, ahead });
    expect(first?.zones).toBeCloseTo(0.25, 12);
    expect(last?.zones).toBeCloseTo(-0.25, 12);
  });
});

const anyAhead = fc.option(
  fc.oneof(
    fc.record({ show: fc.constant('picture' as const), at: fc.integer({ min: 0, max: 3 }) }),
    fc.record({ show: fc.constant('change' as const), at: fc.integer({ min: 0, max: 2 }) }),
    fc.record({
      show: fc.constant('moved' as const),
      zones: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
    }),
  ),
  { nil: undefined },
);
const anyFlip = fc.record({
  ahead: anyAhead,
  pictures: fc.integer({ min: 2, max: 4 }),
  guardSlots: fc.integer({ min: 0, max: 8 }),
  viewSlots: fc.integer({ min: 2, max: 40 }),
});

describe('any flip', () => {
  test('its runs are the slots that the recipe fills with one picture', () => {
    fc.assert(
      fc.property(anyFlip, (flip) => {
        const names = ['a', 'b', 'c', 'd'].slice(0, flip.pictures);
        const { guardSlots, viewSlots, ahead } = flip;
        const recipe = {
          kind: 'flip',
          pictures: names,
          guardSlots,
          guard: 'black',
          ahead,
        } as const;
        const slots = compileSlots(recipe, names, viewSlots);
        const filled = new Array<string>(viewSlots).fill('');
        for (const { picture, from, to } of flipRuns(flip))
          filled.fill(names[picture] as string, from, to);
        expect(slots.map(({ parts }) => parts[0]?.frame ?? '')).toEqual(filled);
      }),
    );
  });

  test('what is chosen lies straight ahead, and a change where it is put', () => {
    fc.assert(
      fc.property(anyFlip, fc.integer({ min: 0, max: 2 }), (flip, at) => {
        if (flip.viewSlots < flip.pictures || at + 1 >= flip.pictures) return;
        const placeWith = (ahead: Ahead | undefined) =>
          flipChanges({ ...flip, ahead }).find(({ from }) => from === at)?.zones;
        expect(placeWith({ show: 'change', at })).toBeCloseTo(0, 9);
        const put = movedTo(flip, at, 0.2);
        // Where the guards at the end come or go by a hair, it may be off by half of them.
        if (put?.show === 'moved' && Math.abs(put.zones) > 0.1)
          expect(placeWith(put)).toBeCloseTo(0.2, 9);
      }),
    );
  });
});
