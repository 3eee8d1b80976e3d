/** The lens finder: types as stated, figures by other arithmetic, the first card, and what is left out. */
import { describe, expect, test } from 'vitest';
import type { FoundLens, LensOffer, LensWish } from '../../../src/core/plan/finder.ts';
import {
  comfortableDepth,
  findLenses,
  lookAtLens,
  meritsOf,
} from '../../../src/core/plan/finder.ts';
import { lensTypes } from '../../../src/core/plan/lens-types.ts';
import { tracedGap, viewingCone } from '../../../src/core/lens/traced.ts';
import { dpi, mm, radToDeg } from '../../../src/core/units/units.ts';
import { randomOf } from '../../bench/shared/random.mjs';

const offers: readonly LensOffer[] = lensTypes.map(({ lpi, coneDeg, lens }) => ({
  id: `${lpi}/${coneDeg}`,
  name: `${lpi} LPI, ${coneDeg}°`,
  source: 'type',
  lens,
}));

const usual: LensWish = {
  use: { kind: 'depth' },
  acrossMm: mm(300),
  alongMm: mm(400),
  nearMm: mm(1000),
  farMm: mm(2000),
  acrossDpi: dpi(720),
  columns: 'blended',
  eyesApartMm: mm(63),
  budgetZones: 0.25,
  depth: comfortableDepth(mm(1000), mm(63)),
};

describe('the types', () => {
  test('have the cone they are named after, and ribs that can be', () => {
    for (const { lpi, coneDeg, lens } of lensTypes) {
      // The thickness is rounded to three digits.
      expect(Math.abs(radToDeg(viewingCone(lens)) - coneDeg), `${lpi} LPI`).toBeLessThan(0.4);
      // In focus: r = t (n − 1) / n, and a rib is no wider than its circle.
      expect((lens.thicknessMm * (lens.index - 1)) / lens.index).toBeGreaterThan(lens.pitchMm / 2);
    }
  });
});

describe('the figures of a lens', () => {
  const [offer] = offers.filter(({ id }) => id === '40/42') as [LensOffer];
  const found = lookAtLens(usual, offer);
  const gap = tracedGap(offer.lens);

  test('depth, by relation 6 written out: z = ∓ N g′ D / (D ± N g′)', () => {
    const reach = found.frames * gap;
    const front = (D: number) => (-reach * D) / (D + reach);
    const behind = (D: number) => (D > reach ? (reach * D) / (D - reach) : Infinity);
    expect(found.sharp.frontMm).toBeCloseTo(Math.max(front(1000), front(2000)), 6);
    expect(found.sharp.behindMm).toBeCloseTo(Math.min(behind(1000), behind(2000)), 6);
  });

  test('views between the eyes, by the cameras’ step: I N g′ / (D p)', () => {
    const between = (D: number) => (63 * found.frames * gap) / (D * offer.lens.pitchMm);
    expect(found.betweenEyes[0]).toBeCloseTo(between(1000), 9);
    expect(found.betweenEyes[1]).toBeCloseTo(between(2000), 9);
  });

  test('ribs are seen from one arcminute on (ISO 8596): 0.29 mm a metre away', () => {
    const seenAt = (nearMm: number) =>
      lookAtLens({ ...usual, nearMm: mm(nearMm), farMm: mm(5000) }, offer).ribsSeen;
    const limit = offer.lens.pitchMm / Math.tan(Math.PI / 180 / 60);
    expect(limit).toBeCloseTo(2183, -1);
    expect(seenAt(limit * 0.99)).toBe(true);
    expect(seenAt(limit * 1.01)).toBe(false);
  });

  test('pitch to ± a quarter zone over the print’s width in inches', () => {
    expect(found.pitchLpi).toBeCloseTo(0.25 / (300 / 25.4), 9);
  });

  test('from further away the zone is wider, and at one cone a finer lens holds less depth', () => {
    for (const { lens, id } of offers) {
      const near = lookAtLens(usual, { ...offer, lens });
      expect(near.zoneMm[1], id).toBeGreaterThan(near.zoneMm[0]);
    }
    const cone = offers
      .filter(({ id }) => id.endsWith('/42'))
      .map((one) => lookAtLens(usual, one))
      .filter(({ frames }) => frames > 2);
    for (const [at, one] of cone.entries())
      if (at > 0)
        expect(-one.sharp.frontMm, one.name).toBeLessThan(
          -(cone[at - 1] as FoundLens).sharp.frontMm,
        );
  });
});

/** Seeded: sizes, distances, printers, uses and depths as makers have them. */
const wishes = (count: number): LensWish[] => {
  const next = randomOf(77);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(next() * of.length)] as T;
  return Array.from({ length: count }, () => {
    const nearMm = 200 * 10 ** next();
    const use = pick([
      { kind: 'depth' },
      { kind: 'depth' },
      { kind: 'flip', pictures: pick([2, 3]) },
      { kind: 'animation' },
    ] as const);
    const depth = { frontMm: mm(-(10 ** (3 * next()))), behindMm: mm(10 ** (3.5 * next())) };
    return {
      ...usual,
      use,
      nearMm: mm(nearMm),
      farMm: mm(nearMm * (1 + 1.5 * next())),
      acrossDpi: dpi(pick([360, 720, 1440])),
      ...(next() < 0.6 ? { depth } : {}),
    };
  });
};

describe.each([
  { title: '100 wishes', count: 100 },
  { title: '500 wishes @wider', count: 500 },
])('$title', ({ count }) => {
  test('the first meets the wish where any does, and no listed type is beaten in everything', () => {
    let met = 0;
    for (const wish of wishes(count)) {
      const found = findLenses(wish, offers);
      const all = offers.map((offer) => lookAtLens(wish, offer));
      const anyMeets = all.some(({ short }) => short.length === 0);
      met += Number(anyMeets);
      expect(found[0]?.short.length === 0).toBe(anyMeets);
      const merits = new Map(all.map((one) => [one.id, meritsOf(wish.use, one)]));
      const beats = (other: FoundLens, one: FoundLens) => {
        const [a, b] = [merits.get(other.id) as number[], merits.get(one.id) as number[]];
        return (
          other.short.every((name) => one.short.includes(name)) &&
          a.every((merit, i) => merit >= (b[i] as number)) &&
          a.some((merit, i) => merit > (b[i] as number))
        );
      };
      const beaten = found.filter((one) => all.some((other) => beats(other, one)));
      expect(beaten.map(({ name }) => name)).toEqual([]);
    }
    // Both kinds of wish are among them.
    expect(met).toBeGreaterThan(count / 5);
    expect(met).toBeLessThan(count);
  });
});

test('further off never narrows the zone or shows the ribs; a lower gain or more frames never make it shallower', () => {
  for (const [at, wish] of wishes(60).entries()) {
    const offer = offers[(7 * at) % offers.length] as LensOffer;
    const look = (change: Partial<LensWish>) =>
      lookAtLens({ ...wish, use: { kind: 'depth' }, frames: 8, ...change }, offer);
    const seen = [1, 1.2, 1.9, 4].map((by) =>
      look({ nearMm: mm(wish.nearMm * by), farMm: mm(wish.farMm * by) }),
    );
    for (const [place, further] of seen.slice(1).entries()) {
      const nearer = seen[place] as FoundLens;
      expect(further.zoneMm[0]).toBeGreaterThan(nearer.zoneMm[0]);
      expect(further.betweenEyes[0]).toBeLessThan(nearer.betweenEyes[0]);
      expect(further.ribsSeen && !nearer.ribsSeen).toBe(false);
    }
    const shares = [1.5, 1, 0.7, 0.2].map((gain) => look({ gain }).depthShare);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    const framed = [2, 5, 9, 24].map((frames) => -look({ frames }).sharp.frontMm);
    expect(framed).toEqual([...framed].sort((a, b) => a - b));
  }
});

test('at a gain, what is sharp is where N g′ reaches γ D z / (D + z)', () => {
  const [offer] = offers.filter(({ id }) => id === '40/42') as [LensOffer];
  const found = lookAtLens({ ...usual, gain: 0.4, farMm: usual.nearMm, frames: 9 }, offer);
  const [reach, D] = [9 * tracedGap(offer.lens), usual.nearMm];
  const motion = (z: number) => Math.abs((0.4 * D * z) / (D + z));
  expect(motion(found.sharp.frontMm)).toBeCloseTo(reach, 9);
  expect(motion(found.sharp.behindMm)).toBeCloseTo(reach, 9);
});

describe('an own sheet', () => {
  test('what the person has comes first among those that meet, and is listed in any case', () => {
    const own: LensOffer = { ...(offers[20] as LensOffer), id: 'mine', source: 'own' };
    for (const wish of wishes(40)) {
      const found = findLenses(wish, [own, ...offers]);
      const mine = found.find(({ id }) => id === 'mine');
      expect(mine).toBeDefined();
      if (mine?.short.length === 0) expect(found[0]?.id).toBe('mine');
    }
  });

  test('a price is a wish like any other', () => {
    const dear = { ...(offers[20] as LensOffer), price: 12 };
    expect(lookAtLens({ ...usual, mostPrice: 10 }, dear).short).toContain('price');
    expect(lookAtLens({ ...usual, mostPrice: 12 }, dear).short).not.toContain('price');
    expect(lookAtLens(usual, dear).short).not.toContain('price');
  });
});
