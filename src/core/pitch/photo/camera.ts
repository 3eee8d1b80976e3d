/**
 * The plane of the strip and the photo: a homography from four points, and the place of the camera. Plane coordinates
 * in mm: x across the ribs from the middle of the bands, y along them from the middle of the strip, z towards the
 * print.
 */
import type { StripSpec } from '../strip.ts';
import type { StripLayout } from '../strip-layout.ts';
import { MM_PER_INCH } from '../../units/units.ts';
import type { PhotoCorners, PhotoPoint } from './photo-terms.ts';
import { solve } from '../../numeric/solve.ts';

/** Row-major 3 × 3: plane → photo pixels. */
export type Homography = Float64Array;

/** The strip’s first corner in the plane, and its four corners in the order of PhotoCorners. */
export interface StripPlane {
  readonly originX: number;
  readonly originY: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly corners: readonly (readonly [x: number, y: number])[];
}

export const stripPlane = (spec: StripSpec, layout: StripLayout): StripPlane => {
  const band = layout.bands[0]!;
  const mmAcross = MM_PER_INCH / spec.acrossDpi;
  const widthMm = layout.acrossDots * mmAcross;
  const heightMm = (layout.alongDots * MM_PER_INCH) / spec.alongDpi;
  const originX = (-(band.acrossFirst + band.acrossLast) / 2) * mmAcross;
  const originY = -heightMm / 2;
  const at = (across: 0 | 1, along: 0 | 1) =>
    [originX + across * widthMm, originY + along * heightMm] as const;
  return {
    originX,
    originY,
    widthMm,
    heightMm,
    // Lying strips are turned: the left edge of the file is the far end of the strip along the ribs.
    corners:
      spec.ribs === 'upright'
        ? [at(0, 0), at(1, 0), at(1, 1), at(0, 1)]
        : [at(0, 1), at(0, 0), at(1, 0), at(1, 1)],
  };
};

/** The exact homography through four places; undefined where three of them lie in line. */
export const homographyOf = (
  places: readonly (readonly [number, number])[],
  points: readonly PhotoPoint[],
): Homography | undefined => {
  const rows: number[] = [];
  const right: number[] = [];
  places.forEach(([x, y], i) => {
    const { xPx, yPx } = points[i]!;
    rows.push(x, y, 1, 0, 0, 0, -x * xPx, -y * xPx, 0, 0, 0, x, y, 1, -x * yPx, -y * yPx);
    right.push(xPx, yPx);
  });
  const h = solve(rows, right);
  return h === undefined ? undefined : Float64Array.of(...h, 1);
};

export const toPhoto = (h: Homography, x: number, y: number): PhotoPoint => {
  const depth = h[6]! * x + h[7]! * y + h[8]!;
  return {
    xPx: (h[0]! * x + h[1]! * y + h[2]!) / depth,
    yPx: (h[3]! * x + h[4]! * y + h[5]!) / depth,
  };
};

/** The place of the camera: sideways from the middle of the bands, and straight in front. */
export interface CameraAt {
  readonly xMm: number;
  readonly yMm: number;
  readonly heightMm: number;
  /** How far the columns of the homography are from a rotation’s: 0 at the right focal length. */
  readonly misfit: number;
}

/** @param focalPx focal length of a camera whose axis meets the middle of the photo. */
export const cameraFor = (
  h: Homography,
  focalPx: number,
  widthPx: number,
  heightPx: number,
): CameraAt => {
  const column = (k: number) => {
    const w = h[6 + k]!;
    return [
      (h[k]! - (widthPx / 2) * w) / focalPx,
      (h[3 + k]! - (heightPx / 2) * w) / focalPx,
      w,
    ] as const;
  };
  const [a, b, t] = [column(0), column(1), column(2)];
  const dot = (u: readonly number[], v: readonly number[]) =>
    u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!;
  const [aa, bb, ab] = [dot(a, a), dot(b, b), dot(a, b)];
  const square = Math.sqrt(aa * bb);
  const normal = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  // The camera’s place C solves a Cx + b Cy + n Cz = −t; a and b are nearly perpendicular.
  const [at, bt] = [dot(a, t), dot(b, t)];
  const under = aa * bb - ab * ab;
  return {
    xMm: -(bb * at - ab * bt) / under,
    yMm: -(aa * bt - ab * at) / under,
    heightMm: Math.abs(dot(normal, t)) / Math.sqrt(under) / Math.sqrt(square),
    misfit: Math.hypot((aa - bb) / square, (2 * ab) / square),
  };
};

const slant = (camera: CameraAt) => Math.hypot(camera.xMm, camera.yMm, camera.heightMm);

/** The camera at this slant distance from the middle of the bands; searches the focal length. */
export const cameraAtDistance = (
  h: Homography,
  distanceMm: number,
  widthPx: number,
  heightPx: number,
): CameraAt => {
  let [low, high] = [0.05 * Math.hypot(widthPx, heightPx), 50 * Math.hypot(widthPx, heightPx)];
  for (let i = 0; i < 60; i += 1) {
    const middle = Math.sqrt(low * high);
    if (slant(cameraFor(h, middle, widthPx, heightPx)) < distanceMm) low = middle;
    else high = middle;
  }
  return cameraFor(h, Math.sqrt(low * high), widthPx, heightPx);
};

/**
 * Distance from the perspective alone: at the focal length that makes the columns a rotation’s. `doubt` is its
 * relative standard deviation with corners known to `doubtMm`. Undefined for a camera straight ahead, which has no
 * such focal length.
 */
export const distanceFromPerspective = (
  plane: StripPlane,
  corners: PhotoCorners,
  widthPx: number,
  heightPx: number,
  doubtMm: number,
): { readonly distanceMm: number; readonly doubt: number } | undefined => {
  const best = (stretch: number, nudged: number): number | undefined => {
    const places = plane.corners.map(
      ([x, y], i) => [x * stretch + (i === nudged ? doubtMm : 0), y] as const,
    );
    const h = homographyOf(places, corners);
    if (h === undefined) return undefined;
    const diagonal = Math.hypot(widthPx, heightPx);
    let [least, at] = [Infinity, 0];
    for (let i = 0; i <= 200; i += 1) {
      const focal = diagonal * 0.3 * 30 ** (i / 200);
      const { misfit } = cameraFor(h, focal, widthPx, heightPx);
      if (misfit < least) [least, at] = [misfit, i];
    }
    if (at === 0 || at === 200) return undefined;
    return slant(cameraFor(h, diagonal * 0.3 * 30 ** (at / 200), widthPx, heightPx));
  };
  const distanceMm = best(1, -1);
  // Paper stretches unevenly by some parts in a thousand; corners are found to a part of a rib.
  const others = [best(1.004, -1), best(0.996, -1), best(1, 0), best(1, 1), best(1, 2), best(1, 3)];
  if (distanceMm === undefined) return undefined;
  let square = 0;
  for (const [i, other] of others.entries()) {
    if (other === undefined) return undefined;
    square += ((i < 2 ? 0.5 : 1) * (other / distanceMm - 1)) ** 2;
  }
  return { distanceMm, doubt: Math.hypot(Math.sqrt(square), 0.02) };
};
