/**
 * Measured parallax of the demo scenes, whose depth is exactly known, and against OpenCV's pyramidal
 * Lucas–Kanade (calcOpticalFlowPyrLK), an implementation of others.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { votesOnFront } from '../../../src/core/frames/parallax/front.ts';
import { matchPyramids, placeAt } from '../../../src/core/frames/parallax/match.ts';
import { judgeOrder } from '../../../src/core/frames/parallax/order.ts';
import { framesAsked } from '../../../src/core/frames/parallax/others.ts';
import type { PairMotion } from '../../../src/core/frames/parallax/pair.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { pyramidOf } from '../../../src/core/frames/parallax/plane.ts';
import { motionThrough } from '../../../src/core/frames/parallax/slope.ts';
import { lenticulesOf } from '../../../src/core/frames/parallax/summary.ts';
import { demo, frameOf, ribsOf, truthOf } from './demo-frames.ts';
import { measure } from './measured-motion.ts';
import { opticalFlow } from './parallax-reference.ts';
import { run } from './run.ts';
import { stepsSeen } from './scene-steps.ts';

describe('motion between neighbouring demo frames', () => {
  test.each([
    ['glasshouse', 0, 0.95, ''],
    ['glasshouse', 6, 0.95, ' @wider'],
    // Fog drifts between these frames, and it has no depth in the map.
    ['lighthouse', 2, 0.92, ''],
  ] as const)(
    '%s, pair %i: within 0.1 lenticule of the scene in a share of %f of places%s',
    async (name, k, share, _tag) => {
      const motion = measure(await frameOf(name, k), await frameOf(name, k + 1));
      const truth = await truthOf(name, k);
      const steps = lenticulesOf(motion, { lenticulesAcross: ribsOf(demo(name)), keyShift: 0 });
      // A window 15 px wide often covers several depths; it must have met one of them.
      let [places, met] = [0, 0];
      steps.forEach((step, at) => {
        if (Number.isNaN(step)) return;
        const [x, y] = [placeAt(at % motion.columns), placeAt(Math.floor(at / motion.columns))];
        let nearest = Infinity;
        for (let v = -7; v <= 7; v += 1)
          for (let u = -7; u <= 7; u += 1) {
            const there = truth(x + u, y + v);
            nearest = Math.min(nearest, Math.abs(there - step));
          }
        places += 1;
        if (nearest <= 0.1) met += 1;
      });
      expect(places).toBeGreaterThan(1500);
      expect(met / places).toBeGreaterThan(share);
    },
  );

  // Even steps along one line by construction of the scenes (their scene.json).
  const even = Array.from({ length: 12 }, (_, i) => i);
  const track = { along: even, slip: even.map(() => 0), rise: even.map(() => 0) };
  const measureThrough = async (name: string, k: number) => {
    const planes = new Map<number, Plane>();
    for (const j of [k, ...framesAsked(k, 12)])
      planes.set(j, pyramidOf(await frameOf(name, j))[0] as Plane);
    const alone = measure(await frameOf(name, k), await frameOf(name, k + 1));
    const motion = run(motionThrough(planes, alone, { index: k, ribs: 'upright', track }));
    return { motion, plane: planes.get(k) as Plane };
  };

  test.each([
    ['glasshouse', 0, 0.78, ' @wider'],
    ['glasshouse', 10, 0.78, ''],
    // Fog has no depth in the scene, and hides what had texture.
    ['lighthouse', 6, 0.74, ' @wider'],
  ] as const)(
    '%s, pair %i through the whole sequence: within 0.1 lenticule at its own pixel in 96 in 100 of textured places (believed: %f)%s',
    async (name, k, share, _tag) => {
      const { motion, plane } = await measureThrough(name, k);
      const scene = await stepsSeen(name, k);
      const steps = lenticulesOf(motion, { lenticulesAcross: ribsOf(demo(name)), keyShift: 0 });
      const told = { textured: 0, believed: 0, right: 0 };
      steps.forEach((step, at) => {
        const [x, y] = [placeAt(at % motion.columns), placeAt(Math.floor(at / motion.columns))];
        if (scene.ownTexture(plane, x, y) < 4 / 255) return;
        told.textured += 1;
        if (Number.isNaN(step)) return;
        told.believed += 1;
        if (scene.seenAt(x, y).some((there) => Math.abs(there - step) <= 0.1)) told.right += 1;
      });
      expect(told.textured).toBeGreaterThan(1000);
      expect(told.right / told.believed).toBeGreaterThan(0.96);
      expect(told.believed / told.textured).toBeGreaterThan(share);
    },
  );

  test('agrees with OpenCV on where places have gone', async () => {
    const [from, to] = [await frameOf('glasshouse', 4), await frameOf('glasshouse', 5)];
    const apartFromTheirs = async ({ columns, shift }: PairMotion) => {
      const points: [number, number][] = [];
      const own: number[] = [];
      shift.forEach((share, at) => {
        if (Number.isNaN(share)) return;
        points.push([placeAt(at % columns), placeAt(Math.floor(at / columns))]);
        own.push(share * from.width);
      });
      const theirs = await opticalFlow(from, to, points);
      return own.map((dx, i) => Math.abs(dx - (theirs[i]?.dx ?? NaN))).sort((a, b) => a - b);
    };
    const alone = await apartFromTheirs(measure(from, to));
    expect(alone.length).toBeGreaterThan(1500);
    expect(alone[alone.length >> 1]).toBeLessThan(0.05);
    // 0.125 px is a tenth of a lenticule on these frames.
    expect(alone.filter((d) => d < 0.125).length / alone.length).toBeGreaterThan(0.85);
  });

  test('through the whole sequence: agrees with OpenCV on single surfaces, and is nearer the scene at edges @wider', async () => {
    const { motion, plane } = await measureThrough('glasshouse', 4);
    const scene = await stepsSeen('glasshouse', 4);
    const points: [number, number][] = [];
    const own: number[] = [];
    motion.shift.forEach((share, at) => {
      const [x, y] = [placeAt(at % motion.columns), placeAt(Math.floor(at / motion.columns))];
      if (Number.isNaN(share) || scene.ownTexture(plane, x, y) < 4 / 255) return;
      points.push([x, y]);
      own.push(share * plane.width);
    });
    const theirs = await opticalFlow(plane, await frameOf('glasshouse', 5), points);
    const perPx = ribsOf(demo('glasshouse')) / plane.width;
    const right = (px: number, at: number) =>
      scene.seenAt(...points[at]!).some((step) => Math.abs(step - px * perPx) <= 0.1);
    const share = (of: readonly boolean[]) => of.filter(Boolean).length / of.length;
    const ours = share(own.map(right));
    const opencvs = share(theirs.map(({ dx }, at) => right(dx, at)));
    const single = points.map(([x, y]) => scene.isOneSurface(x, y, 7));
    const apart = own
      .map((dx, i) => Math.abs(dx - (theirs[i]?.dx ?? NaN)))
      .filter((_, i) => single[i])
      .sort((a, b) => a - b);
    expect(ours).toBeGreaterThan(0.95);
    expect(ours).toBeGreaterThan(opencvs + 0.1);
    // A window of 15 pixels meets one surface only here; a pair alone tells it to some 0.06 px.
    expect(apart.length).toBeGreaterThan(60);
    expect(apart[apart.length >> 1]).toBeLessThan(0.08);
    expect(share(apart.map((d) => d < 0.125))).toBeGreaterThan(0.75);
  });
});

describe('from which side the frames run', () => {
  const votes = { forwards: [0, 0], backwards: [0, 0] };
  let pair: PairMotion;
  beforeAll(async () => {
    const frames = await Promise.all([2, 5, 8].map((index) => frameOf('glasshouse', index)));
    const [a, b, c] = frames.map(pyramidOf) as [Plane[], Plane[], Plane[]];
    const forwards = votesOnFront(a[0]!, b[0]!, c[0]!, run(matchPyramids(b, c)));
    const backwards = votesOnFront(c[0]!, b[0]!, a[0]!, run(matchPyramids(b, a)));
    votes.forwards = [forwards.right, forwards.reversed];
    votes.backwards = [backwards.right, backwards.reversed];
    pair = measure(await frameOf('glasshouse', 5), await frameOf('glasshouse', 6));
  });

  test('what covers what tells it of the glasshouse, both ways round', () => {
    const told = ([right = 0, reversed = 0]: number[]) =>
      judgeOrder({ right, reversed }, undefined);
    expect(told(votes.forwards)).toMatchObject({ runs: 'right', by: 'edges' });
    expect(told(votes.backwards)).toMatchObject({ runs: 'reversed', by: 'edges' });
  });

  test('without edges the nearer foot of a picture is a hint, and a flat one tells nothing', () => {
    const none = { right: 0, reversed: 0 };
    const slope = (sign: number) => ({
      ...pair,
      shift: pair.shift.map((_, at) => sign * Math.floor(at / pair.columns)),
    });
    expect(judgeOrder(none, slope(-1))).toMatchObject({ runs: 'right', by: 'ground' });
    expect(judgeOrder(none, slope(1))).toMatchObject({ runs: 'reversed', by: 'ground' });
    expect(judgeOrder({ right: 7, reversed: 6 }, slope(0)).runs).toBe('unknown');
  });
});
