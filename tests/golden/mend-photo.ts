/**
 * Photos of failed prints: a sheet woven by the studio from frames of a scene with depth, laid wrongly
 * under a traced lens (`mend-bench.ts`), and photographed with a hand-held camera: a little aside, a little
 * turned, unevenly lit, with a tone curve and noise of its own.
 */
import { columnMap } from '../../src/core/weave/column-map.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { encodeProof } from '../../src/core/weave/proof.ts';
import type { ReducedFrame } from '../../src/core/weave/reduce.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { lenticulesOver } from '../../src/core/weave/column-map.ts';
import { randomFrom } from './lens-scan.ts';
import type { Wrong } from './mend-bench.ts';
import { bundles } from './mend-bench.ts';
import { cameraStepMm, lensInFocus, pitchFor } from './press.ts';
import type { Plane } from './scene.ts';
import { gardenScene, renderFrom } from './scene.ts';

const lens = lensInFocus(60, 0.3);
export const DISTANCE_MM = 400;
const DPI = 720;
const ALONG_DPI = 120;
export const PHOTO_SHEET: SheetSpec = {
  widthDots: Math.round((120 / 25.4) * DPI),
  heightDots: Math.round((90 / 25.4) * ALONG_DPI),
  acrossDpi: DPI,
  alongDpi: ALONG_DPI,
  ribs: 'upright',
  viewingPitchMm: pitchFor(lens, DISTANCE_MM),
  lensPitchMm: lens.pitchMm,
  offsetMm: 0,
  viewSlots: 12,
  columns: 'blended',
};
const WIDTH_MM = (PHOTO_SHEET.widthDots * 25.4) / DPI;
const HEIGHT_MM = (PHOTO_SHEET.heightDots * 25.4) / ALONG_DPI;

/** The garden's one row of leaves and panes, again and again down the picture. */
const beds = (scene: readonly Plane[]): Plane[] => {
  const at = (y: number) => Math.round(y / 11);
  return scene.map(({ zMm, covers, colour }) => ({
    zMm,
    covers: (x, y) => covers(x + 31.7 * at(y), y - 11 * at(y)),
    colour,
  }));
};

export interface Printed {
  /** Linear light as a running sum along each row of dots, index (row × (dots + 1) + dot) × 3 + channel. */
  readonly heap: Float32Array;
  /** What the studio keeps of each slot, for its proof. */
  readonly pictures: readonly { columns: number; rows: number; pixels: Uint8Array }[];
}

const decode = Float64Array.from({ length: 256 }, (_, code) => {
  const e = code / 255;
  return e <= 0.04045 ? e / 12.92 : ((e + 0.055) / 1.055) ** 2.4;
});

/** Frames of the scene, `depthMm` behind the print and before it; 0 is a flat picture. */
export const printScene = (depthMm: number): Printed => {
  const scene = beds(gardenScene(depthMm));
  const { first, count } = lenticulesOver(PHOTO_SHEET);
  // A column for each lenticule the print touches, reaching as far as those do.
  const pitch = PHOTO_SHEET.viewingPitchMm;
  const rows = Math.round(count * (HEIGHT_MM / WIDTH_MM));
  const job = { lens, sheet: PHOTO_SHEET, distanceMm: DISTANCE_MM, scene };
  const key = {
    leftMm: (first - 0.5) * pitch,
    topMm: -HEIGHT_MM / 2,
    widthMm: count * pitch,
    heightMm: HEIGHT_MM,
  };
  const frames = Array.from({ length: PHOTO_SHEET.viewSlots }, (_, view): ReducedFrame => {
    const aside = (view - (PHOTO_SHEET.viewSlots - 1) / 2) * cameraStepMm(job);
    const eye = { xMm: aside, yMm: 0, distanceMm: DISTANCE_MM };
    const { light } = renderFrom(scene, eye, key, count, rows, 1);
    return { columns: count, rows, pixels: Uint16Array.from(light, (v) => Math.round(v * 65535)) };
  });
  const rgb = weaveRows(
    PHOTO_SHEET,
    columnMap(PHOTO_SHEET),
    { slots: frames.map((_, i) => i), frames: frames.map((one) => ({ ...one, firstRow: 0 })) },
    { firstRow: 0, rowCount: PHOTO_SHEET.heightDots },
  );
  const dots = PHOTO_SHEET.widthDots;
  const heap = new Float32Array((dots + 1) * 3 * PHOTO_SHEET.heightDots);
  for (let row = 0; row < PHOTO_SHEET.heightDots; row += 1) {
    const sums = [0, 0, 0];
    for (let dot = 0; dot < dots; dot += 1)
      for (let c = 0; c < 3; c += 1) {
        sums[c]! += decode[rgb[(row * dots + dot) * 3 + c]!]!;
        heap[(row * (dots + 1) + dot + 1) * 3 + c] = sums[c]!;
      }
  }
  return { heap, pictures: frames.map((frame) => encodeProof(frame)) };
};

export interface PhotoOf {
  readonly wrong: Wrong;
  readonly seed: number;
  readonly cameraMm: number;
  /** Camera's place sideways and up or down. */
  readonly asideMm: readonly [x: number, y: number];
  readonly noise: number;
  /** Share by which light falls off across the photo. */
  readonly falloff: number;
  /** Exponent of the camera's own tone curve over sRGB. */
  readonly tone: number;
  /** How far the corners are dragged amiss, pixels. */
  readonly amissPx: number;
}

export const plainPhoto: PhotoOf = {
  wrong: {},
  seed: 1,
  cameraMm: DISTANCE_MM,
  asideMm: [0, 0],
  noise: 0.01,
  falloff: 0.15,
  tone: 1.1,
  amissPx: 1,
};

const PX = { width: 900, height: 700, focal: 0 };

/** What the camera gets from each rib at each line, linear, index (line × ribs + rib) × 3 + channel. */
const seenBy = (printed: Printed, photo: PhotoOf) => {
  const { wrong, cameraMm, asideMm } = photo;
  const { skewRad = 0, offsetMm = 0, scale = 1, airMm = 0, smear = 0, bubble } = wrong;
  const own = { ...lens, pitchMm: lens.pitchMm * (wrong.lensScale ?? 1) };
  const dotMm = (25.4 / DPI) * scale;
  const lineMm = (25.4 / ALONG_DPI) * scale;
  const [wide, high] = [WIDTH_MM * scale, HEIGHT_MM * scale];
  const reach = Math.floor(wide / 2 / own.pitchMm);
  const ribs = 2 * reach + 1;
  const lines = Math.round(high / own.pitchMm);
  const [cos, sin] = [Math.cos(skewRad), Math.sin(skewRad)];
  const dots = PHOTO_SHEET.widthDots;
  const light = new Float64Array(ribs * lines * 3);
  const soft = (smear * own.pitchMm) / dotMm;
  for (let rib = -reach; rib <= reach; rib += 1) {
    const crest = rib * own.pitchMm;
    const flat = bundles(own, crest, asideMm[0], cameraMm, airMm);
    for (let line = 0; line < lines; line += 1) {
      const y = ((line + 0.5) / lines - 0.5) * high;
      let through = flat;
      if (bubble !== undefined) {
        const away = Math.hypot(crest - bubble.xMm, y - bubble.yMm) / bubble.radiusMm;
        if (away < 1)
          through = bundles(
            own,
            crest,
            asideMm[0],
            cameraMm,
            airMm + bubble.airMm * (1 - away * away),
          );
      }
      for (const { from, to, share } of through) {
        const middle = (from + to) / 2;
        const at = (middle * cos + y * sin - offsetMm) / dotMm + dots / 2;
        const down = Math.floor((-middle * sin + y * cos) / lineMm + PHOTO_SHEET.heightDots / 2);
        const row = Math.min(PHOTO_SHEET.heightDots - 1, Math.max(0, down));
        const half = Math.max(0.02, (to - from) / 2 / dotMm, soft / 2);
        for (let c = 0; c < 3; c += 1) {
          const heapAt = (dot: number) => {
            const d = Math.min(dots, Math.max(0, dot));
            const low = Math.min(dots - 1, Math.floor(d));
            const base = (row * (dots + 1) + low) * 3 + c;
            const here = printed.heap[base]!;
            return here + (printed.heap[base + 3]! - here) * (d - low);
          };
          light[(line * ribs + rib + reach) * 3 + c]! +=
            (share * (heapAt(at + half) - heapAt(at - half))) / (2 * half);
        }
      }
    }
  }
  return { light, ribs, lines, wide: ribs * own.pitchMm, high };
};

/** The camera's codes of light in 65,535ths: sRGB, IEC 61966-2-1, and a tone curve of its own on that. */
const codesOf = (tone: number) =>
  Uint8Array.from({ length: 65536 }, (_, i) => {
    const value = i / 65535;
    const encoded = value <= 0.0031308 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055;
    return Math.round(255 * encoded ** tone);
  });

/** The photo, and where the picture's corners are in it as a hand would drag them. */
export const takeMendPhoto = (printed: Printed, photo: PhotoOf) => {
  const { light, ribs, lines, wide, high } = seenBy(printed, photo);
  const { width, height } = PX;
  const scaled = photo.wrong.scale ?? 1;
  const random = randomFrom(photo.seed);
  const gauss = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  // A pinhole at (x, y, −distance) that aims at the print's middle.
  const [x0, y0] = photo.asideMm;
  const length = Math.hypot(x0, y0, photo.cameraMm);
  const ahead = [-x0 / length, -y0 / length, photo.cameraMm / length] as const;
  const flat = Math.hypot(ahead[0], ahead[2]);
  const right = [ahead[2] / flat, 0, -ahead[0] / flat] as const;
  const down = [
    ahead[1] * right[2] - ahead[2] * right[1],
    ahead[2] * right[0] - ahead[0] * right[2],
    ahead[0] * right[1] - ahead[1] * right[0],
  ] as const;
  const focal = (0.9 * width * photo.cameraMm) / (WIDTH_MM * scaled);
  const project = (x: number, y: number) => {
    const to = [x - x0, y - y0, photo.cameraMm] as const;
    const dot = (v: readonly [number, number, number]) =>
      to[0] * v[0] + to[1] * v[1] + to[2] * v[2];
    // `down` by the cross product points up or down as the hand of the frame has it: y runs down.
    const sense = down[1] > 0 ? 1 : -1;
    return {
      xPx: width / 2 + (focal * dot(right)) / dot(ahead),
      yPx: height / 2 + (sense * focal * dot(down)) / dot(ahead),
    };
  };
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  const sums = new Float64Array(3);
  const codes = codesOf(photo.tone);
  const sense = down[1] > 0 ? 1 : -1;
  for (let v = 0; v < height; v += 1)
    for (let u = 0; u < width; u += 1) {
      const to = (v * width + u) * 4;
      sums.fill(0);
      for (let sub = 0.25; sub < 1; sub += 0.5) {
        const du = (u + sub - width / 2) / focal;
        const dv = (sense * (v + 0.5 - height / 2)) / focal;
        const away = ahead[2] + du * right[2] + dv * down[2];
        const x = x0 + ((ahead[0] + du * right[0] + dv * down[0]) / away) * photo.cameraMm;
        const y = y0 + ((ahead[1] + du * right[1] + dv * down[1]) / away) * photo.cameraMm;
        const i = Math.floor((x / wide + 0.5) * ribs);
        const j = Math.floor((y / high + 0.5) * lines);
        const on = i >= 0 && j >= 0 && i < ribs && j < lines;
        for (let c = 0; c < 3; c += 1) sums[c]! += (on ? light[(j * ribs + i) * 3 + c]! : 0.35) / 2;
      }
      const lit = 0.85 * (1 - photo.falloff * (u / width));
      for (let c = 0; c < 3; c += 1) {
        const value = Math.min(1, Math.max(0, sums[c]! * lit + photo.noise * 0.4 * gauss()));
        data[to + c] = codes[Math.round(value * 65535)]!;
      }
    }
  const [halfX, halfY] = [(WIDTH_MM * scaled) / 2, (HEIGHT_MM * scaled) / 2];
  // The print's own corners, turned and moved as it lies under the lens.
  const { skewRad = 0, offsetMm = 0 } = photo.wrong;
  const laid = (x: number, y: number) =>
    [
      (x + offsetMm) * Math.cos(skewRad) - y * Math.sin(skewRad),
      (x + offsetMm) * Math.sin(skewRad) + y * Math.cos(skewRad),
    ] as const;
  const amiss = () => (2 * random() - 1) * photo.amissPx;
  const corners = (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([i, j]) => {
    const { xPx, yPx } = project(...laid(i * halfX, j * halfY));
    return { xPx: xPx + amiss(), yPx: yPx + amiss() };
  });
  return { pixels: { widthPx: width, heightPx: height, data }, corners };
};
