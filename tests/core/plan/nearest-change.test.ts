/** What would make a lens work: by the relations written out, and against every step that is nearer. */
import { beforeAll, describe, expect, test } from 'vitest';
import { tracedGap } from '../../../src/core/lens/traced.ts';
import { comfortableDepth, lookAtLens } from '../../../src/core/plan/finder.ts';
import { lensTypes } from '../../../src/core/plan/lens-types.ts';
import type {
  Change,
  Changeable,
  PresentLens,
  WhatWouldWork,
} from '../../../src/core/plan/nearest-change.ts';
import { whatWouldWork, wishAfter } from '../../../src/core/plan/nearest-change.ts';
import { dpi, mm } from '../../../src/core/units/units.ts';
import { randomOf } from '../../bench/shared/random.mjs';

const EYES = mm(63);
const lens60 = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.57 };

const present = (wish: Partial<PresentLens['wish']>, lens = lens60): PresentLens => ({
  offer: { id: 'mine', name: 'Mine', source: 'own', lens },
  depthFollows: false,
  wish: {
    use: { kind: 'depth' },
    acrossMm: mm(300),
    alongMm: mm(400),
    nearMm: mm(500),
    farMm: mm(500),
    acrossDpi: dpi(720),
    columns: 'blended',
    eyesApartMm: EYES,
    budgetZones: 0.25,
    depth: { frontMm: mm(0), behindMm: mm(8) },
    gain: 1,
    frames: 12,
    ...wish,
  },
});

const meets = (of: PresentLens, change: Change): boolean =>
  lookAtLens(wishAfter(of, change), of.offer).short.length === 0;

const single = (of: PresentLens): Change =>
  Object.assign({}, ...whatWouldWork(of).single) as Change;

describe('by relation 6 written out: N g′ ≥ γ D z / (D + z)', () => {
  const gap = tracedGap(lens60);
  const reach = 12 * gap;

  test('a thing 5 mm behind is too deep for 8 frames from 500 mm', () => {
    // The traced gap of this lens is 0.49 to 0.50 mm (docs/optics.md).
    const eight = 8 * gap;
    expect(eight).toBeGreaterThan(3.9);
    expect(eight).toBeLessThan(4);
    const found = single(present({ frames: 8, depth: { frontMm: mm(0), behindMm: mm(5) } }));
    // 4 (500 + 5) / (500 × 5) = 0.80: by hand, with 4 for N g′.
    expect(found.gain).toBe(Math.floor((1000 * eight * 505) / (500 * 5)) / 1000);
    expect(Math.abs((found.gain ?? 0) - 0.8)).toBeLessThan(0.03);
    expect(found.frames).toBe(Math.ceil((500 * 5) / (505 * gap)));
    expect(found.size).toBe(Math.floor((300 * ((eight * 500) / (500 - eight))) / 5));
    // From nearer it moves less, but D z / (D + z) is within N g′ only from a hand's breadth.
    expect(found.distance).toBeUndefined();
  });

  test('what is far behind is sharp from near enough: D = N g′ z / (z − N g′)', () => {
    const deep = present({
      nearMm: mm(100),
      farMm: mm(100),
      frames: 8,
      depth: { frontMm: mm(0), behindMm: mm(4.2) },
      eyesApartMm: mm(40),
    });
    const least = (8 * gap * 4.2) / (4.2 - 8 * gap);
    expect(single(deep).distance).toBe(Math.floor(least));
  });

  test('what is in front is sharp from far enough: D = N g′ |z| / (N g′ − |z|)', () => {
    const front = present({
      nearMm: mm(90),
      farMm: mm(120),
      depth: { frontMm: mm(-5.7), behindMm: mm(0) },
    });
    const least = (reach * 5.7) / (reach - 5.7);
    expect(single(front).distance).toBe(Math.ceil(least));
  });

  test('a zone as wide as the eyes are apart: D = I g′ / p', () => {
    const narrow = present({
      nearMm: mm(60),
      farMm: mm(80),
      depth: { frontMm: mm(0), behindMm: mm(0) },
    });
    expect(single(narrow).distance).toBe(Math.ceil((EYES * gap) / lens60.pitchMm));
  });
});

test('a gain that is small already can still be lowered', () => {
  const flat = present({ gain: 0.03, depth: { frontMm: mm(0), behindMm: mm(900) } });
  const most = (12 * tracedGap(lens60) * 1400) / (500 * 900);
  expect(most).toBeLessThan(0.03);
  expect(single(flat).gain).toBe(Math.floor(1000 * most) / 1000);
});

test('a flip that has too few places: fewer pictures, three places each', () => {
  const coarse = present({ use: { kind: 'flip', pictures: 9 } });
  const { places } = lookAtLens(coarse.wish, coarse.offer);
  expect(single(coarse)).toEqual({ frames: Math.floor(places / 3) });
});

test('moments that an eye cannot tell apart: as many as it can', () => {
  const many = present({ use: { kind: 'animation' }, frames: 40 });
  expect(single(many)).toEqual({ frames: lookAtLens(many.wish, many.offer).places });
});

test('a price is met by none, and a wish that is met needs none', () => {
  const dear = present({ mostPrice: 10 });
  const priced = { ...dear, offer: { ...dear.offer, price: 12 } };
  expect(whatWouldWork(priced)).toMatchObject({ single: [] });
  expect(whatWouldWork(priced).pair).toBeUndefined();
  const met = present({ depth: { frontMm: mm(-2), behindMm: mm(2) } });
  expect(whatWouldWork(met).found.short).toEqual([]);
  expect(whatWouldWork(met).single).toEqual([]);
});

/** Seeded: lenses, distances and depths as makers have them, and far from it. */
const asks = (count: number): PresentLens[] => {
  const next = randomOf(41);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(next() * of.length)] as T;
  return Array.from({ length: count }, () => {
    const nearMm = mm(Math.round(150 * 20 ** next()));
    const farMm = mm(nearMm + Math.round(nearMm * 1.5 * next()));
    const depthFollows = next() < 0.25;
    const stated = { frontMm: mm(-(10 ** (2.7 * next()))), behindMm: mm(10 ** (3.2 * next())) };
    const use = pick([
      { kind: 'depth' },
      { kind: 'depth' },
      { kind: 'depth' },
      { kind: 'flip', pictures: pick([2, 3, 5]) },
      { kind: 'animation' },
    ] as const);
    const ask = present(
      {
        use,
        nearMm,
        farMm,
        acrossDpi: dpi(pick([360, 720, 1440])),
        depth: depthFollows ? comfortableDepth(nearMm, EYES) : stated,
        gain: pick([1, 1, 0.8]),
        frames: pick([4, 8, 12, 24]),
      },
      pick(lensTypes).lens,
    );
    return { ...ask, depthFollows };
  });
};

const now = ({ wish }: PresentLens): Required<Change> => ({
  distance: wish.nearMm,
  size: wish.acrossMm,
  gain: wish.gain,
  frames: wish.use.kind === 'flip' ? wish.use.pictures : wish.frames,
});

const stepOf = (figure: Changeable): number => (figure === 'gain' ? 0.001 : 1);

/** Every step that is nearer than this one, on both sides. */
const nearerSteps = (from: number, to: number, step: number, least: number): number[] => {
  const [low, high] = to < from ? [to, (from * from) / to] : [(from * from) / to, to];
  const first = Math.floor(Math.max(low, least) / step + 1e-6) + 1;
  const all: number[] = [];
  for (let at = first; at * step < high - 1e-9; at += 1) all.push(at * step);
  return all;
};

const pairCost = (of: PresentLens, change: Change): number =>
  Math.hypot(
    ...(Object.entries(change) as [Changeable, number][]).map(([figure, value]) =>
      Math.log(value / now(of)[figure]),
    ),
  );

/** One step back towards what it is now. */
const stepBack = (of: PresentLens, figure: Changeable, value: number): number => {
  const step = stepOf(figure);
  const back = value < now(of)[figure] ? value + step : value - step;
  return Number(back.toFixed(3));
};

describe.each([
  { title: '24 wishes', count: 24 },
  { title: '500 wishes @wider', count: 500 },
])('$title', ({ count }) => {
  let all: readonly { readonly of: PresentLens; readonly answer: WhatWouldWork }[] = [];
  beforeAll(() => {
    all = asks(count).map((of) => ({ of, answer: whatWouldWork(of) }));
  });

  test('each change meets the wish by itself, and no nearer one does', () => {
    let changes = 0;
    for (const { of, answer } of all)
      for (const change of answer.single) {
        const [[figure, value]] = Object.entries(change) as [[Changeable, number]];
        changes += 1;
        expect(meets(of, change)).toBe(true);
        const least = figure === 'distance' ? 49 : 0;
        const nearer = nearerSteps(now(of)[figure], value, stepOf(figure), least).filter((step) =>
          meets(of, { [figure]: step }),
        );
        expect(nearer, `${figure} ${value} from ${now(of)[figure]}`).toEqual([]);
      }
    expect(changes).toBeGreaterThan(count / 3);
  });

  test('a pair meets it where no single change does, and neither of the two can stand back', () => {
    let pairs = 0;
    for (const { of, answer } of all) {
      if (answer.pair === undefined) continue;
      pairs += 1;
      expect(answer.single).toEqual([]);
      expect(Object.keys(answer.pair)).toHaveLength(2);
      expect(meets(of, answer.pair)).toBe(true);
      for (const [figure, value] of Object.entries(answer.pair) as [Changeable, number][]) {
        const back = { ...answer.pair, [figure]: stepBack(of, figure, value) };
        expect(meets(of, back), `${figure} ${value}`).toBe(false);
      }
    }
    expect(pairs).toBeGreaterThan(count / 40);
  });

  test('no pair of distance and another figure on a grid is nearer by more than a hundredth', () => {
    let tried = 0;
    const missed: string[] = [];
    for (const { of, answer } of all) {
      if (answer.found.short.length === 0 || answer.single.length > 0) continue;
      const nearest = answer.pair === undefined ? Infinity : pairCost(of, answer.pair);
      tried += 1;
      for (let i = -20; i <= 20; i += 1)
        for (let j = 1; j <= 20; j += 1) {
          const distance = Math.round(of.wish.nearMm * 1.1 ** i);
          if (distance < 50) continue;
          for (const change of [
            { distance, gain: Math.floor(1000 * of.wish.gain * 0.9 ** j) / 1000 },
            { distance, size: of.wish.acrossMm * 0.9 ** j },
          ])
            if (pairCost(of, change) < nearest - 0.01 && meets(of, change))
              missed.push(`${JSON.stringify(change)} before ${JSON.stringify(answer.pair)}`);
        }
    }
    expect(missed).toEqual([]);
    expect(tried).toBeGreaterThan(0);
  });
});

test('nothing helps a lens over which not even two frames can be told apart', () => {
  const hopeless = present({ acrossDpi: dpi(90) });
  expect(whatWouldWork(hopeless).found.short).toContain('frames');
  expect(whatWouldWork(hopeless).single).toEqual([]);
  expect(whatWouldWork(hopeless).pair).toBeUndefined();
});
