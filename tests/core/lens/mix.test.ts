import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { viewAtPlace } from '../../../src/core/lens/lens.ts';
import { blurLeftOf, dotSpread, mix } from '../../../src/core/lens/mix.ts';

const widths = fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max: 1.5, noNaN: true }));
const places = fc.double({ min: -2, max: 2, noNaN: true });
const counts = fc.integer({ min: 1, max: 200 });
const sum = (numbers: number[]) => numbers.reduce((total, number) => total + number, 0);

/** The trapezium by its definition, two even strips laid over each other, summed on a fine comb. */
const leftOfByComb = (x: number, spot: number, dot: number) => {
  const steps = 400;
  let under = 0;
  for (let i = 0; i < steps; i += 1)
    for (let j = 0; j < steps; j += 1)
      if (((i + 0.5) / steps - 0.5) * spot + ((j + 0.5) / steps - 0.5) * dot < x) under += 1;
  return under / (steps * steps);
};

describe('the blur', () => {
  it.each([
    [0.2, 0.1],
    [0.1, 0.2],
    [0.15, 0.15],
    [0.3, 1e-9],
  ])('of strips %f and %f is what laying one over the other gives', (spot, dot) => {
    for (const x of [-0.2, -0.11, -0.04, 0, 0.03, 0.09, 0.14, 0.3])
      expect(Math.abs(blurLeftOf(x, { spot, dot }) - leftOfByComb(x, spot, dot))).toBeLessThan(
        0.005,
      );
  });
  it('is a step without width', () => {
    expect(blurLeftOf(-1e-9, { spot: 0, dot: 0 })).toBe(0);
    expect(blurLeftOf(1e-9, { spot: 0, dot: 0 })).toBe(1);
  });
});

describe('the mix of views', () => {
  it('shares out exactly 1, each share above 0', () => {
    fc.assert(
      fc.property(places, counts, widths, widths, (u, count, spot, dot) => {
        const shares = mix(u, count, { spot, dot });
        expect(Math.abs(sum(shares.map(({ share }) => share)) - 1)).toBeLessThan(1e-9);
        for (const { share, slot } of shares) {
          expect(share).toBeGreaterThan(0);
          expect(slot).toBeGreaterThanOrEqual(0);
          expect(slot).toBeLessThan(count);
        }
      }),
    );
  });

  // Relation 3, v = (1 − u) N: u = 1 − (v + ½) / N is the middle of view v.
  it('without blur is the view of relation 3, whole', () => {
    fc.assert(
      fc.property(counts, fc.nat(199), (count, pick) => {
        const view = pick % count;
        const u = 1 - (view + 0.5) / count;
        expect(mix(u, count, { spot: 0, dot: 0 })).toEqual([{ slot: view, rib: 0, share: 1 }]);
        expect(Math.floor(viewAtPlace(u, count))).toBe(view);
      }),
    );
  });

  it('mirrors: the slots counted from the other side', () => {
    fc.assert(
      fc.property(places, counts, widths, widths, (u, count, spot, dot) => {
        fc.pre(spot + dot > 1e-6);
        const total = (at: number, slot: number, rib: number) =>
          sum(
            mix(at, count, { spot, dot })
              .filter((one) => one.slot === slot && one.rib === rib)
              .map(({ share }) => share),
          );
        for (const { slot, rib, share } of mix(u, count, { spot, dot }))
          expect(Math.abs(total(1 - u, count - 1 - slot, -rib) - share)).toBeLessThan(1e-6);
      }),
    );
  });

  it('looks under the neighbour one pitch on', () => {
    fc.assert(
      fc.property(places, counts, widths, (u, count, spot) => {
        const here = mix(u, count, { spot, dot: 0.01 });
        const there = mix(u + 1, count, { spot, dot: 0.01 });
        const middle = (shares: typeof here) =>
          sum(shares.map(({ slot, rib, share }) => share * (rib + (count - 1 - slot) / count)));
        expect(middle(there)).toBeCloseTo(middle(here) + 1, 6);
      }),
    );
  });

  it('wraps at the strip’s edge: half the last view, half the first of the neighbour', () => {
    const shares = mix(0, 12, { spot: 0.05, dot: 0 });
    expect(shares.map(({ slot, rib }) => [slot, rib])).toEqual([
      [0, -1],
      [11, 0],
    ]);
    for (const { share } of shares) expect(share).toBeCloseTo(0.5, 12);
  });

  it('does not move the middle of what is seen', () => {
    fc.assert(
      fc.property(widths, widths, (spot, dot) => {
        const shares = mix(0.5, 12, { spot, dot });
        const middle = sum(
          shares.map(({ slot, rib, share }) => share * (rib + (11.5 - slot) / 12)),
        );
        // At a border between slots an unblurred eye sees the slot on the right: half a slot off.
        expect(middle).toBeCloseTo(spot + dot === 0 ? 0.5 + 0.5 / 12 : 0.5, 9);
      }),
    );
  });

  it('names what is wrong', () => {
    expect(() => mix(NaN, 12, { spot: 0, dot: 0 })).toThrow(/^u:/);
    expect(() => mix(0, 1.5, { spot: 0, dot: 0 })).toThrow(/^viewSlots:/);
    expect(() => mix(0, 12, { spot: -1, dot: 0 })).toThrow(/^blur.spot:/);
    expect(() => mix(0, 12, { spot: 0, dot: NaN })).toThrow(/^blur.dot:/);
  });
});

describe('the printed dot', () => {
  // 60 lenticules and 720 dpi: a dot is a twelfth of the pitch (arithmetic).
  it('spreads by itself where columns are crisp, by √2 of itself where they are blended', () => {
    expect(dotSpread(25.4 / 720, 25.4 / 60, 'crisp')).toBeCloseTo(1 / 12, 12);
    expect(dotSpread(25.4 / 720, 25.4 / 60, 'blended')).toBeCloseTo(Math.SQRT2 / 12, 12);
  });

  // The claim behind √2, against the column map itself: the variance of where a dot's light belongs.
  it('spreads as far as dots laid anywhere over the views do', () => {
    const dot = 1 / 7.3;
    let second = 0;
    const steps = 4000;
    for (let step = 0; step < steps; step += 1)
      for (const inside of [-0.375, -0.125, 0.125, 0.375]) {
        const eyeInDot = ((step + 0.5) / steps - 0.5) * dot;
        second += (eyeInDot - inside * dot) ** 2 / (steps * 4);
      }
    const blended = dotSpread(dot, 1, 'blended');
    expect(Math.abs(second / (blended ** 2 / 12) - 1)).toBeLessThan(0.05);
  });
});
