/**
 * A photo of a pitch strip under its lens, made by ray tracing: every pixel is followed through
 * Snell's law at the arc (lens-bench.ts) to the print, then blurred, lit unevenly, made noisy, encoded
 * and pressed into a JPEG. The dots of the strip come from `src`; nothing else does.
 *
 * Plane coordinates: mm from the middle of the strip, x across the ribs, y along them; z towards the
 * print. Across the ribs the bench's trace is exact in three dimensions with the index
 * √(n² − s²) / √(1 − s²), s the ray's direction cosine along the ribs, which refraction keeps.
 */
import sharp from 'sharp';
import { stripLayout } from '../../src/core/pitch/strip-layout.ts';
import { stripSource } from '../../src/core/pitch/strip-rows.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import type { BenchLens } from './lens-bench.ts';
import { traceRay } from './lens-bench.ts';

export interface PhotoScene {
  readonly spec: StripSpec;
  /** Undefined: a bare strip. */
  readonly lens: BenchLens | undefined;
  /** The lens on the strip: turned (clockwise positive) and moved across its ribs. */
  readonly skewRad: number;
  readonly shiftMm: number;
  /** Printed length over asked length. */
  readonly stretchAcross: number;
  readonly stretchAlong: number;
  /** Whether the lens lies on the labels and marks as well, or on the bands alone. */
  readonly lensOverAll: boolean;
  /** Slant distance from the middle of the strip, and the direction: off axis by, towards. */
  readonly distanceMm: number;
  readonly offAxisRad: number;
  readonly towardsRad: number;
  /** Camera turned about its own axis. */
  readonly rollRad: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Share of the frame that the strip fills, the tighter way. */
  readonly fills: number;
  readonly blurPx: number;
  /** Standard deviation in linear light of a white's 1. */
  readonly noise: number;
  readonly jpegQuality: number;
  /** Light falls off by this share from one side to the other, towards an angle. */
  readonly falloff: number;
  readonly falloffTowardsRad: number;
  /** Reflectance = black + (white − black) × asked ** gamma. */
  readonly inkGamma: number;
  /** A bright patch, in linear light at its middle; 0 for none. */
  readonly glare: number;
  readonly seed: number;
}

export interface Photo {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly data: Uint8ClampedArray;
  /** Where the strip's first corner, then clockwise as its file is seen, truly are. */
  readonly corners: readonly { readonly xPx: number; readonly yPx: number }[];
}

/** mulberry32, a published 32-bit generator. */
export const random = (seed: number) => () => {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), seed | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};

/** sRGB, IEC 61966-2-1. */
const decode = (encoded: number) =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
const encode = (linear: number) =>
  linear <= 0.0031308 ? linear * 12.92 : 1.055 * linear ** (1 / 2.4) - 0.055;
const CODES = Uint8Array.from({ length: 4097 }, (_, i) => Math.round(encode(i / 4096) * 255));

const WHITE = 0.82;
const BLACK = 0.03;
const TABLE = 0.18;
/** White paper beyond the strip. */
const PAPER_MM = 9;

/** The strip's rows as light heaped up from the left, each distinct row once. */
interface Heaps {
  readonly dots: number;
  /** Which heap a row of the strip uses. */
  readonly heapOf: Int32Array;
  readonly heaps: readonly Float32Array[];
  /** Colours differ in it. */
  readonly coloured: readonly boolean[];
}

const heapsOf = (spec: StripSpec, inkGamma: number): Heaps => {
  // Always as with upright ribs; lying strips are turned as a whole by the camera.
  const upright = { ...spec, ribs: 'upright' as const };
  const { acrossDots, alongDots } = stripLayout(upright);
  const rows = stripSource(upright);
  const light = Float64Array.from(
    { length: 256 },
    (_, code) => BLACK + (WHITE - BLACK) * decode(code / 255) ** inkGamma,
  );
  const heapOf = new Int32Array(alongDots);
  const heaps: Float32Array[] = [];
  const coloured: boolean[] = [];
  let before: Uint8Array | undefined;
  for (let along = 0; along < alongDots; along += 1) {
    const row = rows(along, 1);
    if (before === undefined || Buffer.compare(before, row) !== 0) {
      const colour = row.some((value, i) => value !== row[i - (i % 3)]);
      const channels = colour ? 3 : 1;
      const heap = new Float32Array((acrossDots + 1) * channels);
      for (let c = 0; c < channels; c += 1) {
        let sum = 0;
        for (let dot = 0; dot < acrossDots; dot += 1) {
          sum += light[row[dot * 3 + c]!]!;
          heap[(dot + 1) * channels + c] = sum;
        }
      }
      heaps.push(heap);
      coloured.push(colour);
    }
    heapOf[along] = heaps.length - 1;
    before = row;
  }
  return { dots: acrossDots, heapOf, heaps, coloured };
};

const kept = new Map<string, Heaps>();
const heapsKept = (spec: StripSpec, inkGamma: number): Heaps => {
  const key = JSON.stringify([spec, inkGamma]);
  let found = kept.get(key);
  if (found === undefined) kept.set(key, (found = heapsOf(spec, inkGamma)));
  return found;
};

const PLACES = 48;
const SLOPES = 25;
const ALONGS = 5;

/**
 * Where the print is met, from the rib's middle, for each apparent place on the rib (at the height of
 * the grooves), each slope across and each slope along. Index (along × SLOPES + across) × (PLACES + 1) + place.
 */
const landingTable = (
  lens: BenchLens,
  across: readonly [number, number],
  along: readonly [number, number],
) => {
  const table = new Float64Array(ALONGS * SLOPES * (PLACES + 1));
  const half = lens.pitchMm / 2;
  const groove = lens.radiusMm - Math.sqrt(lens.radiusMm ** 2 - half ** 2);
  const far = 1e5;
  for (let j = 0; j < ALONGS; j += 1) {
    const b = along[0] + ((along[1] - along[0]) * j) / (ALONGS - 1);
    for (let i = 0; i < SLOPES; i += 1) {
      const a = across[0] + ((across[1] - across[0]) * i) / (SLOPES - 1);
      const s2 = (b * b) / (1 + a * a + b * b);
      const index = Math.sqrt((lens.index ** 2 - s2) / (1 - s2));
      const trace = (off: number) => {
        const z = lens.radiusMm - Math.sqrt(lens.radiusMm ** 2 - off ** 2);
        const eye = { acrossMm: off - a * (z + far), distanceMm: far };
        return {
          seenAt: off + (groove - z) * a,
          printMm: traceRay({ ...lens, index }, 0, off, eye).printMm,
        };
      };
      // Apparent places are not even steps of the arc: walk along it finely and interpolate.
      const fine = 4 * PLACES;
      let from = trace(-half);
      let next = trace(-half);
      let step = 0;
      for (let place = 0; place <= PLACES; place += 1) {
        const wanted = (place / PLACES - 0.5) * lens.pitchMm;
        while (next.seenAt < wanted && step < fine) {
          from = next;
          step += 1;
          next = trace((step / fine - 0.5) * lens.pitchMm);
        }
        const gap = next.seenAt - from.seenAt;
        const share = gap > 0 ? Math.min(1, (wanted - from.seenAt) / gap) : 1;
        table[(j * SLOPES + i) * (PLACES + 1) + place] =
          from.printMm + (next.printMm - from.printMm) * share;
      }
    }
  }
  return table;
};

type Vector = readonly [number, number, number];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const scaled = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** A pinhole camera that looks at the middle of the strip, the strip filling the frame as asked. */
const cameraOf = (scene: PhotoScene, halfWidthMm: number, halfHeightMm: number) => {
  const { distanceMm, offAxisRad, towardsRad, rollRad, widthPx, heightPx } = scene;
  const forward: Vector = [
    -Math.sin(offAxisRad) * Math.cos(towardsRad),
    -Math.sin(offAxisRad) * Math.sin(towardsRad),
    Math.cos(offAxisRad),
  ];
  const at = scaled(forward, -distanceMm);
  const level = cross([0, 1, 0], forward);
  const right0 = scaled(level, 1 / Math.hypot(...level));
  const down0 = cross(forward, right0);
  const turn = rollRad + (scene.spec.ribs === 'lying' ? -Math.PI / 2 : 0);
  const right = plus(scaled(right0, Math.cos(turn)), scaled(down0, Math.sin(turn)));
  const down = plus(scaled(right0, -Math.sin(turn)), scaled(down0, Math.cos(turn)));
  /** Where a place of the plane z = 0 is seen, for a focal length of 1, from the frame's middle. */
  const seen = (x: number, y: number) => {
    const from = plus([x, y, 0], scaled(at, -1));
    const depth = dot(from, forward);
    return [dot(from, right) / depth, dot(from, down) / depth] as const;
  };
  const reach = [-1, 1].flatMap((i) => [-1, 1].map((j) => seen(i * halfWidthMm, j * halfHeightMm)));
  const focalPx = Math.min(
    (scene.fills * widthPx) / 2 / Math.max(...reach.map(([u]) => Math.abs(u))),
    (scene.fills * heightPx) / 2 / Math.max(...reach.map(([, v]) => Math.abs(v))),
  );
  return { at, forward, right, down, seen, focalPx };
};

/** Linear light of every pixel, RGB interleaved, before the camera's own faults. */
const exposed = (scene: PhotoScene, camera: ReturnType<typeof cameraOf>) => {
  const { spec, lens, widthPx, heightPx } = scene;
  const layout = stripLayout({ ...spec, ribs: 'upright' });
  const { dots, heapOf, heaps, coloured } = heapsKept(spec, scene.inkGamma);
  const dotAcross = (25.4 / spec.acrossDpi) * scene.stretchAcross;
  const dotAlong = (25.4 / spec.alongDpi) * scene.stretchAlong;
  const lines = layout.alongDots;
  // The bands' middle, where the printed rib has its middle, is not the strip's.
  const fieldMiddle = (layout.bands[0]!.acrossFirst + layout.bands[0]!.acrossLast) / 2;
  const halfX = (dots * dotAcross) / 2;
  const halfY = (lines * dotAlong) / 2;
  const lensX = scene.lensOverAll
    ? ([-Infinity, Infinity] as const)
    : ([
        (layout.bands[0]!.acrossFirst - dots / 2) * dotAcross - 1,
        (layout.bands[0]!.acrossLast - dots / 2) * dotAcross + 1,
      ] as const);
  const lensY = scene.lensOverAll
    ? ([-Infinity, Infinity] as const)
    : ([
        (layout.bands[0]!.alongFirst - lines / 2) * dotAlong - 0.5,
        (layout.phase.alongLast - lines / 2) * dotAlong + 0.5,
      ] as const);
  const cos = Math.cos(scene.skewRad);
  const sin = Math.sin(scene.skewRad);
  const distance = -camera.at[2];
  const eyeAcross = camera.at[0] * cos + camera.at[1] * sin;
  const eyeAlong = -camera.at[0] * sin + camera.at[1] * cos;
  const reach = halfX + halfY + PAPER_MM;
  const slopes = [(-reach - eyeAcross) / distance, (reach - eyeAcross) / distance] as const;
  const alongs = [(-reach - eyeAlong) / distance, (reach - eyeAlong) / distance] as const;
  const table = lens === undefined ? undefined : landingTable(lens, slopes, alongs);
  const shift = (fieldMiddle - dots / 2) * dotAcross * cos + scene.shiftMm;
  const out = new Float32Array(widthPx * heightPx * 3);
  const { forward, right, down, focalPx, at } = camera;
  const subs = 2;
  // About a pixel's share of a rib, for the stretch of print that a sub-sample covers.
  const pxMm = scene.distanceMm / focalPx;
  const spread = lens === undefined ? 0 : Math.max(1, (pxMm / subs / lens.pitchMm) * PLACES);

  for (let v = 0; v < heightPx; v += 1) {
    const dv = (v + 0.5 - heightPx / 2) / focalPx;
    for (let sub = 0; sub < widthPx * subs; sub += 1) {
      const du = ((sub + 0.5) / subs - widthPx / 2) / focalPx;
      const wayX = forward[0] + du * right[0] + dv * down[0];
      const wayY = forward[1] + du * right[1] + dv * down[1];
      const wayZ = forward[2] + du * right[2] + dv * down[2];
      const x = at[0] + (wayX / wayZ) * distance;
      const y = at[1] + (wayY / wayZ) * distance;
      const px = (v * widthPx + ((sub / subs) | 0)) * 3;
      if (Math.abs(x) > halfX + PAPER_MM || Math.abs(y) > halfY + PAPER_MM) {
        for (let c = 0; c < 3; c += 1) out[px + c]! += TABLE / subs;
        continue;
      }
      let from = x;
      let to = x;
      let row = y;
      if (table !== undefined && x > lensX[0] && x < lensX[1] && y > lensY[0] && y < lensY[1]) {
        const pitch = lens!.pitchMm;
        const xi = x * cos + y * sin - shift;
        const eta = -x * sin + y * cos;
        const crest = Math.round(xi / pitch) * pitch;
        const off = ((xi - crest) / pitch + 0.5) * PLACES;
        const a = wayX / wayZ;
        const b = wayY / wayZ;
        const i = ((a * cos + b * sin - slopes[0]) / (slopes[1] - slopes[0])) * (SLOPES - 1);
        const j = ((-a * sin + b * cos - alongs[0]) / (alongs[1] - alongs[0])) * (ALONGS - 1);
        const i0 = Math.min(SLOPES - 2, Math.max(0, i | 0));
        const j0 = Math.round(j);
        const j1 = Math.min(ALONGS - 1, Math.max(0, j > j0 ? j0 + 1 : j0 - 1));
        const js = Math.abs(j - j0);
        const base0 = (j0 * SLOPES + i0) * (PLACES + 1);
        const base1 = (j1 * SLOPES + i0) * (PLACES + 1);
        const is = i - i0;
        const landing = (place: number) => {
          const p = Math.min(PLACES, Math.max(0, place));
          const p0 = Math.min(PLACES - 1, p | 0);
          const ps = p - p0;
          const at0 = base0 + p0;
          const at1 = base1 + p0;
          const n = PLACES + 1;
          const low = table[at0]! + (table[at0 + 1]! - table[at0]!) * ps;
          const high = table[at0 + n]! + (table[at0 + n + 1]! - table[at0 + n]!) * ps;
          const low1 = table[at1]! + (table[at1 + 1]! - table[at1]!) * ps;
          const high1 = table[at1 + n]! + (table[at1 + n + 1]! - table[at1 + n]!) * ps;
          const one = low + (high - low) * is;
          const two = low1 + (high1 - low1) * is;
          return one + (two - one) * js;
        };
        const s2 = (b * b) / (1 + a * a + b * b);
        const sunk =
          eta +
          (lens!.thicknessMm * Math.sqrt(s2) * Math.sign(b)) / Math.sqrt(lens!.index ** 2 - s2);
        const middle = crest + shift;
        const first = middle + landing(off - spread / 2);
        const second = middle + landing(off + spread / 2);
        from = first * cos - sunk * sin;
        to = second * cos - sunk * sin;
        row = ((first + second) / 2) * sin + sunk * cos;
      } else {
        from -= pxMm / subs / 2;
        to += pxMm / subs / 2;
      }
      const line = Math.floor(row / dotAlong + lines / 2);
      let left = Math.min(from, to) / dotAcross + dots / 2;
      let end = Math.max(from, to) / dotAcross + dots / 2;
      if (line < 0 || line >= lines || end <= 0 || left >= dots) {
        for (let c = 0; c < 3; c += 1) out[px + c]! += WHITE / subs;
        continue;
      }
      if (end - left < 0.3) {
        left -= 0.15;
        end += 0.15;
      }
      left = Math.min(dots, Math.max(0, left));
      end = Math.min(dots, Math.max(0, end));
      const which = heapOf[line]!;
      const heap = heaps[which]!;
      const channels = coloured[which] === true ? 3 : 1;
      const l0 = Math.min(dots - 1, left | 0);
      const e0 = Math.min(dots - 1, end | 0);
      for (let c = 0; c < channels; c += 1) {
        const low = heap[l0 * channels + c]!;
        const high = heap[e0 * channels + c]!;
        const light =
          (high +
            (heap[(e0 + 1) * channels + c]! - high) * (end - e0) -
            (low + (heap[(l0 + 1) * channels + c]! - low) * (left - l0))) /
          (end - left);
        if (channels === 3) out[px + c]! += light / subs;
        else for (let k = 0; k < 3; k += 1) out[px + k]! += light / subs;
      }
    }
  }
  return out;
};

/** A Gaussian along rows, then along columns, cut off at three sigmas. */
const blurred = (light: Float32Array, width: number, height: number, sigmaPx: number) => {
  const reach = Math.ceil(3 * sigmaPx);
  const taps = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigmaPx * sigmaPx)),
  );
  const whole = taps.reduce((sum, tap) => sum + tap, 0);
  const wide = width * 3;
  const rows = new Float32Array(light.length);
  const out = new Float32Array(light.length);
  taps.forEach((tap, i) => {
    const share = tap / whole;
    const aside = (i - reach) * 3;
    for (let v = 0; v < height; v += 1) {
      const base = v * wide;
      for (let k = 0; k < wide; k += 1) {
        let from = k + aside;
        if (from < 0) from = k % 3;
        else if (from >= wide) from = wide - 3 + (k % 3);
        rows[base + k]! += share * light[base + from]!;
      }
    }
  });
  for (let v = 0; v < height; v += 1)
    taps.forEach((tap, i) => {
      const share = tap / whole;
      const from = Math.min(height - 1, Math.max(0, v + i - reach)) * wide;
      const base = v * wide;
      for (let k = 0; k < wide; k += 1) out[base + k]! += share * rows[from + k]!;
    });
  return out;
};

/** Takes the photo. */
export const takePhoto = async (scene: PhotoScene): Promise<Photo> => {
  const { spec, widthPx, heightPx } = scene;
  const layout = stripLayout({ ...spec, ribs: 'upright' });
  const halfX = (layout.acrossDots * 12.7 * scene.stretchAcross) / spec.acrossDpi;
  const halfY = (layout.alongDots * 12.7 * scene.stretchAlong) / spec.alongDpi;
  const camera = cameraOf(scene, halfX, halfY);
  const light = blurred(exposed(scene, camera), widthPx, heightPx, scene.blurPx);
  const next = random(scene.seed);
  const normals = Float32Array.from(
    { length: 65536 },
    () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  );
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  const fallX = Math.cos(scene.falloffTowardsRad) / widthPx;
  const fallY = Math.sin(scene.falloffTowardsRad) / heightPx;
  let state = scene.seed | 1;
  for (let v = 0; v < heightPx; v += 1)
    for (let u = 0; u < widthPx; u += 1) {
      const aside = (u - widthPx / 2) * fallX + (v - heightPx / 2) * fallY;
      const lit = 1 - scene.falloff * Math.max(0, aside + 0.5) ** 1.3;
      const near = ((u / widthPx - 0.55) ** 2 + (v / heightPx - 0.45) ** 2) / 0.03;
      const shine = scene.glare === 0 ? 0 : scene.glare * Math.exp(-near);
      for (let c = 0; c < 3; c += 1) {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        const at = (v * widthPx + u) * 3 + c;
        const clean = light[at]! * lit + shine;
        const noisy = clean + scene.noise * Math.sqrt(0.1 + clean) * normals[state >>> 16]!;
        rgb[at] = CODES[Math.round(4096 * Math.min(1, Math.max(0, noisy)))]!;
      }
    }
  const jpeg = await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: scene.jpegQuality })
    .toBuffer();
  const data = await sharp(jpeg).ensureAlpha().raw().toBuffer();
  const clockwise: readonly (readonly [number, number])[] =
    spec.ribs === 'upright'
      ? [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ]
      : [
          [-1, 1],
          [-1, -1],
          [1, -1],
          [1, 1],
        ];
  return {
    widthPx,
    heightPx,
    data: new Uint8ClampedArray(data.buffer, data.byteOffset, data.byteLength),
    corners: clockwise.map(([i, j]) => {
      const [u, v] = camera.seen(i * halfX, j * halfY);
      return { xPx: u * camera.focalPx + widthPx / 2, yPx: v * camera.focalPx + heightPx / 2 };
    }),
  };
};

/** A photo with nothing wrong, to be changed. */
export const plainScene = (spec: StripSpec, lens: BenchLens | undefined): PhotoScene => ({
  spec,
  lens,
  skewRad: 0,
  shiftMm: 0,
  stretchAcross: 1,
  stretchAlong: 1,
  lensOverAll: false,
  distanceMm: spec.readFromMm,
  offAxisRad: 0,
  towardsRad: 0,
  rollRad: 0,
  widthPx: 1800,
  heightPx: 1800,
  fills: 0.88,
  blurPx: 0.7,
  noise: 0.01,
  jpegQuality: 90,
  falloff: 0,
  falloffTowardsRad: 0,
  inkGamma: 1,
  glare: 0,
  seed: 1,
});
