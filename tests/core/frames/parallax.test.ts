/**
 * Measured parallax against scenes of exactly known depth, and against OpenCV's pyramidal Lucas–Kanade
 * (calcOpticalFlowPyrLK), an implementation of others.
 */
import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { votesOnFront } from '../../../src/core/frames/parallax/front.ts';
import { matchPyramids, placeAt } from '../../../src/core/frames/parallax/match.ts';
import { judgeOrder } from '../../../src/core/frames/parallax/order.ts';
import type { PairMotion } from '../../../src/core/frames/parallax/pair.ts';
import { matchPair } from '../../../src/core/frames/parallax/pair.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { framesAsked, motionThrough } from '../../../src/core/frames/parallax/slope.ts';
import { trackOf } from '../../../src/core/frames/parallax/track.ts';
import { planeOfLight, pyramidOf, turned } from '../../../src/core/frames/parallax/plane.ts';
import {
  histogramOf,
  lenticulesOf,
  levelOf,
  spreadOf,
  stepsOf,
} from '../../../src/core/frames/parallax/summary.ts';
import { linearOfCode8 } from '../../../src/core/colour/srgb.ts';
import { opticalFlow } from './parallax-reference.ts';
import { stepsSeen } from './scene-steps.ts';

const run = <T>(work: Generator<undefined, T>): T => {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
};
const measure = (from: Plane, to: Plane, ribs: 'upright' | 'lying' = 'upright'): PairMotion =>
  run(matchPair(pyramidOf(from), pyramidOf(to), { ribs, downTo: 0 }));

interface DemoScene {
  readonly frames: readonly string[];
  readonly frameWidthPx: number;
  readonly printWidthMm: number;
  readonly pitchLpi: number;
  readonly viewingDistanceMm: number;
  readonly cameras: { readonly stepMm: number };
  readonly depth: { readonly files: readonly string[]; zNearMm: number; zFarMm: number };
}

const folder = (name: string) => `demo-scenes/${name}/`;
const demo = (name: string): DemoScene =>
  JSON.parse(readFileSync(`${folder(name)}scene.json`, 'utf8')) as DemoScene;

const frameOf = async (name: string, index: number): Promise<Plane> => {
  const { data, info } = await sharp(folder(name) + (demo(name).frames[index] as string))
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const light = linearOfCode8();
  return planeOfLight(
    info.width,
    info.height,
    Uint16Array.from(data, (code) => light[code] as number),
  );
};

/** Exact ribs per view at a pixel of the frame, from the depth map and relation 6. */
const truthOf = async (name: string, index: number) => {
  const scene = demo(name);
  const { data, info } = await sharp(`${folder(name)}depth/${scene.depth.files[index]}`)
    .toColourspace('grey16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2);
  const { zNearMm, zFarMm } = scene.depth;
  return (x: number, y: number): number => {
    const column = Math.min(info.width - 1, Math.max(0, x >> 1));
    const row = Math.min(info.height - 1, Math.max(0, y >> 1));
    const code = codes[(row * info.width + column) * info.channels] as number;
    const z = zNearMm + (code / 65535) * (zFarMm - zNearMm);
    const stepMm = (scene.cameras.stepMm * z) / (scene.viewingDistanceMm + z);
    return (stepMm * scene.pitchLpi) / 25.4;
  };
};

const ribsOf = ({ printWidthMm, pitchLpi }: DemoScene) => (printWidthMm / 25.4) * pitchLpi;

describe('motion between neighbouring demo frames', () => {
  test.each([
    ['glasshouse', 0, 0.95],
    ['glasshouse', 6, 0.95],
    // Fog drifts between these frames, and it has no depth in the map.
    ['lighthouse', 2, 0.92],
  ] as const)(
    '%s, pair %i: within 0.1 lenticule of the scene in a share of %f of places',
    async (name, k, share) => {
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
    ['glasshouse', 0, 0.85],
    ['glasshouse', 10, 0.85],
    // Fog has no depth in the scene, and hides what had texture.
    ['lighthouse', 6, 0.8],
  ] as const)(
    '%s, pair %i through the whole sequence: within 0.1 lenticule at its own pixel in 95 in 100 of textured places (believed: %f)',
    async (name, k, share) => {
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
      expect(told.right / told.believed).toBeGreaterThan(0.95);
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

  test('through the whole sequence: agrees with OpenCV on single surfaces, and is nearer the scene at edges', async () => {
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

/** Rough ground: sums of waves of many lengths and turns, so that any displacement is exact. */
const ground = (x: number, y: number): number => {
  let sum = 0;
  for (let i = 0; i < 14; i += 1) {
    const turn = 2.4 * i;
    const length = 5 + 2.7 * i;
    sum += Math.sin((2 * Math.PI * (x * Math.cos(turn) + y * Math.sin(turn))) / length + 1.7 * i);
  }
  return 0.5 + sum / 30;
};
const [WIDTH, HEIGHT] = [320, 240];
/** Left half and right half displaced each by its own; all of it by dy and, towards the corners, by toe. */
const made = (left: number, right: number, dy = 0, toe = 0): Plane => {
  const data = new Float32Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const uv = ((2 * x) / WIDTH - 1) * ((2 * y) / HEIGHT - 1);
      const dx = x < WIDTH / 2 ? left : right;
      data[y * WIDTH + x] = ground(x - dx, y - dy - toe * uv);
    }
  return { width: WIDTH, height: HEIGHT, data };
};
const known = (values: Float32Array) => [...values].filter((value) => !Number.isNaN(value));
const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1] ?? NaN;
/** A lenticule a pixel. */
const SCALE = { lenticulesAcross: WIDTH, keyShift: 0 };

describe('motion between pictures made by formula', () => {
  test.each([0.37, -1.62, 7.25, -23.4])('finds a displacement of %f px to a fiftieth', (dx) => {
    const steps = known(lenticulesOf(measure(made(0, 0), made(dx, dx)), SCALE));
    expect(steps.length).toBeGreaterThan(700);
    expect(Math.abs(median(steps) - dx)).toBeLessThan(0.02);
    expect(steps.filter((s) => Math.abs(s - dx) < 0.05).length / steps.length).toBeGreaterThan(
      0.95,
    );
  });

  test('does not mind another brightness and contrast', () => {
    const other = made(0.6, 0.6);
    const dim = { ...other, data: other.data.map((value) => 0.2 + 0.5 * value) };
    const steps = known(lenticulesOf(measure(made(0, 0), dim), SCALE));
    expect(median(steps)).toBeCloseTo(0.6, 1.7);
  });

  test('believes nothing where there is nothing to see', () => {
    const blank = {
      width: WIDTH,
      height: HEIGHT,
      data: new Float32Array(WIDTH * HEIGHT).fill(0.4),
    };
    expect(known(measure(blank, blank).shift)).toHaveLength(0);
  });

  test('turns with lying ribs: across is then down the frame', () => {
    const [from, to] = [turned(made(0, 0)), turned(made(1.4, 1.4))];
    const motion = measure(turned(from), turned(to), 'lying');
    expect([motion.columns, motion.rows]).toEqual([HEIGHT / 8, WIDTH / 8]);
    expect(median(known(lenticulesOf(motion, SCALE)))).toBeCloseTo(1.4, 1.7);
  });

  test('tells a crooked camera slide and toed-in cameras from the vertical mismatch', () => {
    const level = (dy: number, toe: number) =>
      levelOf(measure(made(0, 0), made(0.5, 0.5, dy, toe)), WIDTH);
    expect(level(0, 0).rise).toBeCloseTo(0, 1.7);
    expect(level(0, 0).keystone).toBeCloseTo(0, 1.5);
    expect(level(0.8, 0).rise).toBeCloseTo(0.8, 1.5);
    expect(level(0, 0.4).keystone).toBeCloseTo(0.4, 1);
  });

  test('finds the uneven step and the slipped window among even ones', () => {
    // The third step is half as long again; before the last frame the window slips by 0.3.
    const places = [0, 1, 2, 3.5, 4.5, 5.5, 6.5];
    const slips = [0, 0, 0, 0, 0, 0, 0.3];
    const frames = places.map((at, i) => made(-0.8 * at + slips[i]!, 0.6 * at + slips[i]!));
    const pairs = frames
      .slice(1)
      .map((to, i) => lenticulesOf(measure(frames[i] as Plane, to), SCALE));
    const steps = stepsOf(pairs);
    expect(steps[0]?.stretch).toBeCloseTo(1, 1.5);
    expect(steps[2]?.stretch).toBeCloseTo(1.5, 1);
    expect(steps[5]?.slip).toBeCloseTo(0.3, 1.2);
    // And the camera's way along its slide, from which the fourth pair is measured again.
    const motions = frames.slice(1).map((to, i) => measure(frames[i] as Plane, to));
    const way = trackOf(motions, WIDTH);
    expect(way?.along[6]).toBeCloseTo(6.5, 0.7);
    const planes = new Map(frames.map((frame, i) => [i, pyramidOf(frame)[0] as Plane]));
    const choices = { index: 2, ribs: 'upright', track: way! } as const;
    const through = known(lenticulesOf(run(motionThrough(planes, motions[2]!, choices)), SCALE));
    expect(through.length).toBeGreaterThan(700);
    const right = through.filter((s) => Math.min(Math.abs(s + 1.2), Math.abs(s - 0.9)) < 0.1);
    expect(right.length / through.length).toBeGreaterThan(0.95);
  });

  test('frames of two pictures are not one camera slide', () => {
    const blank = { columns: 4, rows: 4, placeWidth: 0.25, placeHeight: 0.25 };
    const unknown = { ...blank, shift: new Float32Array(16).fill(NaN), rise: new Float32Array(16) };
    expect(trackOf([unknown, unknown], 32)).toBeUndefined();
  });

  test('parts what is sharp, soft and broken, and takes the moved key plane off', () => {
    const steps = [-2.5, -1.5, -0.05, 0, 0.05, 0.9, 1.0, 1.2, 2.0, 2.1];
    expect(spreadOf(steps)).toMatchObject({
      places: 10,
      sharp: 0.5,
      soft: 0.3,
      broken: 0.2,
      still: 0.3,
    });
    expect(spreadOf([NaN])).toBeUndefined();
    const counted = histogramOf(steps, 0.5);
    expect(counted.reduce((sum, { count }) => sum + count, 0)).toBe(10);
    expect(counted[0]).toEqual({ from: -2.5, to: -2, count: 1 });
    const motion = measure(made(0, 0), made(1.5, 1.5));
    const moved = known(lenticulesOf(motion, { lenticulesAcross: WIDTH, keyShift: 1.5 }));
    expect(median(moved)).toBeCloseTo(0, 1.7);
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
