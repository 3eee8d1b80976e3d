/** The light that reaches each pixel of a photo of a strip, through its lens where that lies; plane coordinates as in strip-photo.ts. */
import { stripLayout } from '../../src/core/pitch/strip-layout.ts';
import { ALONGS, landingTable, PLACES, SLOPES } from './rib-landing.ts';
import type { cameraOf } from './strip-camera.ts';
import { heapsKept, WHITE } from './strip-light.ts';
import type { PhotoScene } from './strip-photo-scene.ts';

const TABLE = 0.18;
/** White paper beyond the strip. */
const PAPER_MM = 9;

/** From where to where the lens lies, plane coordinates. */
const lensLies = (scene: PhotoScene, layout: ReturnType<typeof stripLayout>) => {
  const { spec, lensOverAll, lensReach } = scene;
  const everywhere = [-Infinity, Infinity] as const;
  if (lensOverAll && lensReach === undefined) return [everywhere, everywhere] as const;
  const [first, phase] = [layout.bands[0]!, layout.phase];
  const x = (dot: number) =>
    ((dot - layout.acrossDots / 2) * 25.4 * scene.stretchAcross) / spec.acrossDpi;
  const y = (line: number) =>
    ((line - layout.alongDots / 2) * 25.4 * scene.stretchAlong) / spec.alongDpi;
  // Just beyond the bands where it covers them.
  const between = (from: number, to: number, less: number, more: number, over: number) =>
    [
      less === 0 ? from - over : from + less * (to - from),
      more === 1 ? to + over : from + more * (to - from),
    ] as const;
  const [left, right, top, bottom] = lensReach ?? [0, 1, 0, 1];
  return [
    between(x(first.acrossFirst), x(first.acrossLast), left, right, 1),
    between(y(first.alongFirst), y(phase.alongLast), top, bottom, 0.5),
  ] as const;
};

/** Between the nearest places and slopes of the table, from `base` on. */
const landing = (table: ArrayLike<number>, base: number, slope: number, place: number): number => {
  const p = Math.min(PLACES, Math.max(0, place));
  const p0 = Math.min(PLACES - 1, p | 0);
  const share = p - p0;
  const at = base + p0;
  const next = at + PLACES + 1;
  const low = table[at]! + (table[at + 1]! - table[at]!) * share;
  const high = table[next]! + (table[next + 1]! - table[next]!) * share;
  return low + (high - low) * slope;
};

/** Linear light of every pixel, RGB interleaved, before the camera's own faults. */
export const exposed = (scene: PhotoScene, camera: ReturnType<typeof cameraOf>) => {
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
  const [lensX, lensY] = lensLies(scene, layout);
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
        const s2 = (b * b) / (1 + a * a + b * b);
        const sunk =
          eta +
          (lens!.thicknessMm * Math.sqrt(s2) * Math.sign(b)) / Math.sqrt(lens!.index ** 2 - s2);
        const middle = crest + shift;
        const ahead = off - spread / 2;
        const behind = off + spread / 2;
        const one = landing(table, base0, is, ahead);
        const other = landing(table, base0, is, behind);
        const first = middle + one + (landing(table, base1, is, ahead) - one) * js;
        const second = middle + other + (landing(table, base1, is, behind) - other) * js;
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
