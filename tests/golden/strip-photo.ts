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
import { cameraOf } from './strip-camera.ts';
import { exposed } from './strip-exposure.ts';
import type { PhotoScene } from './strip-photo-scene.ts';

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
const encode = (linear: number) =>
  linear <= 0.0031308 ? linear * 12.92 : 1.055 * linear ** (1 / 2.4) - 0.055;
const CODES = Uint8Array.from({ length: 4097 }, (_, i) => Math.round(encode(i / 4096) * 255));

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
  const normals = new Float32Array(65536);
  for (let i = 0; i < normals.length; i += 1)
    normals[i] = Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  const fallX = Math.cos(scene.falloffTowardsRad) / widthPx;
  const fallY = Math.sin(scene.falloffTowardsRad) / heightPx;
  const aroundGlare = (u: number, v: number) =>
    ((u / widthPx - 0.55) ** 2 + (v / heightPx - 0.45) ** 2) / 0.03;
  const { noise } = scene;
  let state = scene.seed | 1;
  for (let v = 0; v < heightPx; v += 1)
    for (let u = 0; u < widthPx; u += 1) {
      const aside = (u - widthPx / 2) * fallX + (v - heightPx / 2) * fallY;
      const lit = scene.falloff === 0 ? 1 : 1 - scene.falloff * Math.max(0, aside + 0.5) ** 1.3;
      const shine = scene.glare === 0 ? 0 : scene.glare * Math.exp(-aroundGlare(u, v));
      for (let c = 0; c < 3; c += 1) {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        const at = (v * widthPx + u) * 3 + c;
        const clean = light[at]! * lit + shine;
        const noisy = clean + noise * Math.sqrt(0.1 + clean) * normals[state >>> 16]!;
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
