/**
 * Scenes of exactly known parallax for the measurement's own tests: layers front to back, seen by a row of evenly
 * spaced cameras. A layer's point at X (pixels, in camera 0) stands at X + k d(X) in camera k, where d = at + leanX X +
 * leanY y, so planes may face the cameras, lean across or lie like ground. Apart from `src`: only the type of a plane.
 */
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';

interface Layer {
  /** Pixels a view at X = 0, y = 0; right is positive, so what is behind is above 0. */
  readonly at: number;
  readonly leanX: number;
  readonly leanY: number;
  readonly covers: (x: number, y: number) => boolean;
  /** 0 … 1, as the eye takes it. */
  readonly tone: (x: number, y: number) => number;
  readonly isFence?: boolean;
}

export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly layers: readonly Layer[];
  readonly seed: number;
}

/** Samples across and down each pixel. */
const SAMPLES = 3;

/** Whole numbers to 0 … 1, without a pattern (integer hash after Wang, from memory). */
const chance = (a: number, b: number, seed: number): number => {
  let h = (Math.imul(a, 374761393) + Math.imul(b, 668265263) + Math.imul(seed, 974711)) | 0;
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  h = Math.imul(h ^ (h >>> 16), 2246822519);
  return ((h ^ (h >>> 15)) >>> 0) / 4294967296;
};

const smooth = (t: number) => t * t * (3 - 2 * t);

/** Value noise, −1 … 1, whose blobs are `length` pixels wide. */
const noise = (x: number, y: number, length: number, seed: number): number => {
  const [u, v] = [x / length, y / length];
  const [i, j] = [Math.floor(u), Math.floor(v)];
  const [s, t] = [smooth(u - i), smooth(v - j)];
  const top = (1 - s) * chance(i, j, seed) + s * chance(i + 1, j, seed);
  const foot = (1 - s) * chance(i, j + 1, seed) + s * chance(i + 1, j + 1, seed);
  return 2 * ((1 - t) * top + t * foot) - 1;
};

/** A rough surface: blobs of three sizes, stronger in some places than in others. */
const surface = (mean: number, contrast: number, seed: number) => (x: number, y: number) => {
  const strong = 0.25 + 0.75 * (0.5 + 0.5 * noise(x, y, 61, seed + 3));
  const sum =
    0.45 * noise(x, y, 5.3, seed) +
    0.35 * noise(x, y, 11.7, seed + 1) +
    0.2 * noise(x, y, 29, seed + 2);
  return mean + contrast * strong * sum;
};

/** Anything with almost no texture of its own: only its edges can be followed. */
const plain = (mean: number) => (x: number, y: number) => mean + 0.0004 * (x + y);

const within = (cx: number, cy: number, radius: number) => (x: number, y: number) =>
  (x - cx) ** 2 + (y - cy) ** 2 < radius ** 2;
const box = (left: number, top: number, right: number, foot: number) => (x: number, y: number) =>
  x > left && x < right && y > top && y < foot;

/** Bars of 2 to 4 pixels, 11 to 17 apart, between two heights. */
const bars = (left: number, top: number, right: number, foot: number, seed: number) => {
  const edges: number[] = [];
  for (let x = left, i = 0; x < right; i += 1) {
    const wide = 2 + 2 * chance(i, 1, seed);
    edges.push(x, x + wide);
    x += 11 + 6 * chance(i, 2, seed);
  }
  return (x: number, y: number) => {
    if (y < top || y > foot || x < left) return false;
    for (let i = 0; i < edges.length; i += 2) if (x > edges[i]! && x < edges[i + 1]!) return true;
    return false;
  };
};

const facing = { leanX: 0, leanY: 0 } as const;

interface SceneChoices {
  readonly width?: number;
  readonly height?: number;
  /** Of the surfaces: 1 shows texture nearly everywhere, 0.4 leaves much of them bare. */
  readonly contrast?: number;
}

/** A wall, a leaning screen, ground, a fence, and things in front of them; every seed is another scene. */
export const parallaxScene = (
  seed: number,
  { width = 400, height = 320, contrast = 1 }: SceneChoices = {},
): Scene => {
  const some = (i: number, from: number, to: number) => from + (to - from) * chance(i, 9, seed);
  const rough = (mean: number, most: number, own: number) => surface(mean, contrast * most, own);
  const [w, h] = [width, height];
  const ground = some(0, 0.66, 0.74) * h;
  return {
    width,
    height,
    seed,
    layers: [
      {
        ...facing,
        at: some(1, -1.2, -0.8),
        covers: within(some(2, 0.14, 0.24) * w, some(3, 0.5, 0.62) * h, some(4, 0.1, 0.14) * w),
        tone: rough(some(20, 0.15, 0.4), some(21, 0.12, 0.4), seed + 10),
      },
      {
        ...facing,
        at: some(5, -0.7, -0.4),
        covers: box(
          some(6, 0.62, 0.66) * w,
          some(7, 0.4, 0.5) * h,
          some(8, 0.76, 0.8) * w,
          0.8 * h,
        ),
        tone: plain(some(9, 0.15, 0.25)),
      },
      {
        ...facing,
        at: some(10, -0.5, -0.1),
        covers: bars(0.32 * w, 0.12 * h, 0.6 * w, 0.62 * h, seed + 20),
        tone: rough(some(11, 0.6, 0.75), 0.16, seed + 30),
        isFence: true,
      },
      {
        ...facing,
        at: some(12, 0.1, 0.35),
        covers: within(some(13, 0.82, 0.9) * w, some(14, 0.3, 0.4) * h, some(15, 0.09, 0.12) * w),
        tone: rough(some(22, 0.4, 0.75), some(23, 0.12, 0.4), seed + 40),
      },
      {
        // Nearest at the foot.
        at: 0.9 + (1.6 / h) * ground,
        leanX: 0,
        leanY: -1.6 / h,
        covers: (_x, y) => y > ground,
        tone: rough(some(24, 0.3, 0.5), some(25, 0.15, 0.4), seed + 50),
      },
      {
        at: some(16, 0.5, 0.6),
        leanX: some(17, 0.0012, 0.002),
        leanY: 0,
        covers: box(0.3 * w, 0.06 * h, some(18, 0.5, 0.56) * w, h),
        tone: rough(some(26, 0.4, 0.6), some(27, 0.12, 0.4), seed + 60),
      },
      {
        ...facing,
        at: some(19, 1.2, 1.5),
        covers: () => true,
        tone: rough(some(28, 0.5, 0.75), some(29, 0.12, 0.4), seed + 70),
      },
    ],
  };
};

interface Met {
  readonly layer: Layer;
  readonly x: number;
  readonly parallax: number;
}

const meet = ({ layers }: Scene, camera: number, x: number, y: number): Met => {
  for (const layer of layers) {
    const there = layer.at + layer.leanY * y;
    const own = (x - camera * there) / (1 + camera * layer.leanX);
    if (layer.covers(own, y)) return { layer, x: own, parallax: there + layer.leanX * own };
  }
  throw new Error('The last layer must cover all.');
};

/** Offset of the samples of a pixel from its middle. */
const OFFSETS = Array.from({ length: SAMPLES }, (_, i) => (i + 0.5) / SAMPLES - 0.5);
const CORNERS = [OFFSETS[0]!, OFFSETS[SAMPLES - 1]!] as const;

/** The light of a pixel. Surfaces are smooth over a pixel, so one sample serves where it shows only one of them. */
const lightAt = (scene: Scene, camera: number, column: number, row: number): number => {
  const corners = CORNERS.flatMap((dy) =>
    CORNERS.map((dx) => meet(scene, camera, column + dx, row + dy).layer),
  );
  const offsets = new Set(corners).size === 1 ? [0] : OFFSETS;
  let light = 0;
  for (const dy of offsets)
    for (const dx of offsets) {
      const { layer, x } = meet(scene, camera, column + dx, row + dy);
      light += layer.tone(x, row + dy) ** 2;
    }
  return light / offsets.length ** 2;
};

/** What camera k takes, of 8 bits and with the noise of a good sensor, one step of 255. */
export const shotOf = (scene: Scene, camera: number): Plane => {
  const { width, height, seed } = scene;
  const data = new Float32Array(width * height);
  for (let row = 0; row < height; row += 1)
    for (let column = 0; column < width; column += 1) {
      const at = row * width + column;
      const grain = chance(at, camera, seed + 99) + chance(at, camera, seed + 98) - 1;
      const shown = 255 * Math.sqrt(lightAt(scene, camera, column, row)) + 2 * grain;
      data[at] = Math.min(255, Math.max(0, Math.round(shown))) / 255;
    }
  return { width, height, data };
};

/** Where a pixel lies: at a thin bar or just beside one, near another edge between depths, or elsewhere. */
export type Where = 'edge' | 'fence' | 'elsewhere';

export interface SceneTruth {
  /** Parallax of the nine samples of the pixel, pixels a view. */
  readonly seenAt: (x: number, y: number) => number[];
  readonly whereIs: (x: number, y: number) => Where;
}

/** @param nearPx how far from an edge counts as near; @param jumpPx pixels a view by which depths part */
export const truthOfScene = (
  scene: Scene,
  camera: number,
  nearPx = 8,
  jumpPx = 0.25,
): SceneTruth => {
  const { width, height } = scene;
  const met = (x: number, y: number) => meet(scene, camera, x, y);
  const pixels = Array.from({ length: width * height }, (_, at) =>
    met(at % width, Math.floor(at / width)),
  );
  const marks = Uint8Array.from(pixels, ({ layer, parallax }, at) => {
    if (layer.isFence === true) return 2;
    const [right, below] = [(at + 1) % width === 0 ? at : at + 1, at + width];
    const jumps = [right, below].some(
      (there) => Math.abs((pixels[there]?.parallax ?? parallax) - parallax) > jumpPx,
    );
    return jumps ? 1 : 0;
  });
  const whereIs = (x: number, y: number): Where => {
    let found: Where = 'elsewhere';
    for (let v = Math.max(0, y - nearPx); v <= Math.min(height - 1, y + nearPx); v += 1)
      for (let u = Math.max(0, x - nearPx); u <= Math.min(width - 1, x + nearPx); u += 1) {
        const mark = marks[v * width + u];
        if (mark === 2) return 'fence';
        if (mark === 1 && (u - x) ** 2 + (v - y) ** 2 <= nearPx ** 2) found = 'edge';
      }
    return found;
  };
  const seenAt = (x: number, y: number) =>
    OFFSETS.flatMap((dy) => OFFSETS.map((dx) => met(x + dx, y + dy).parallax));
  return { seenAt, whereIs };
};
