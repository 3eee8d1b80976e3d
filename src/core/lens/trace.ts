/**
 * The exact meridional ray trace through one rib (optics relation 8): Snell’s law at the arc, then straight on to the
 * print behind the flat back. The paraxial relations of `lens.ts` are its limit for small angles.
 *
 * Coordinates of one rib: x from its middle, right positive; z from its crest into the sheet. The arc’s centre of
 * curvature lies at z = R, the print at z = t. Angles are in air, from the normal of the sheet, positive when the eye
 * is on the right.
 */
import type { Mm, Rad } from '../units/units.ts';
import { mm, rad } from '../units/units.ts';
import type { LensSheet } from './lens.ts';
import { ribRadius } from './lens.ts';

/** An eye at a point: sideways from the middle of this rib, and in front of its crest. */
export interface EyeAt {
  readonly offsetMm: Mm;
  readonly distanceMm: Mm;
}

/** An eye infinitely far away in one direction. */
export interface EyeTowards {
  readonly angleRad: Rad;
}

export type Eye = EyeAt | EyeTowards;

/** A ray that passed the arc. */
export interface TracedRay {
  /** Where it passed the rib, from the rib’s middle. */
  readonly entryMm: Mm;
  /** Where it ends on the print, from the rib’s middle. */
  readonly landingMm: Mm;
  /** Apparent width, seen from the eye, for a unit of entry; weights do not sum to 1. */
  readonly weight: number;
}

/** A direction in the plane of the trace; unit length. */
interface Direction {
  readonly x: number;
  readonly z: number;
}

/**
 * @throws RangeError that names the field when no such rib exists: a radius under half the pitch (the arc would not
 *   reach its neighbours), a sheet thinner than its ribs, an index not above 1.
 */
export const checkRib = (lens: LensSheet): void => {
  for (const field of ['pitchMm', 'thicknessMm'] as const)
    if (!(lens[field] > 0 && Number.isFinite(lens[field])))
      throw new RangeError(`${field}: expected a length above 0 mm, received ${lens[field]}`);
  if (!(lens.index > 1 && Number.isFinite(lens.index)))
    throw new RangeError(`index: expected a refractive index above 1, received ${lens.index}`);
  const radius = ribRadius(lens);
  const half = lens.pitchMm / 2;
  if (!(radius >= half && Number.isFinite(radius)))
    throw new RangeError(
      `radiusMm: a rib ${lens.pitchMm} mm wide needs a radius of at least ${half} mm, received ` +
        `${radius}${lens.radiusMm === undefined ? ', the radius that focuses on the print' : ''}`,
    );
  if (surfaceDepth(lens, half) >= lens.thicknessMm)
    throw new RangeError(
      `thicknessMm: the ribs alone are ${surfaceDepth(lens, half)} mm deep, the sheet ` +
        `${lens.thicknessMm} mm`,
    );
};

/** Depth of the arc’s surface below the crest, R − √(R² − x²); |x| at most half the pitch. */
export const surfaceDepth = (lens: LensSheet, x: number): number => {
  const radius = ribRadius(lens);
  return radius - Math.sqrt(Math.max(0, radius * radius - x * x));
};

/** The outward normal of the arc, towards the eye. */
const normalAt = (lens: LensSheet, x: number): Direction => {
  const radius = ribRadius(lens);
  return { x: x / radius, z: -Math.sqrt(Math.max(0, radius * radius - x * x)) / radius };
};

/**
 * The index that the sheet has for the plane across the ribs when the line of sight also leans along them: refraction at
 * a rib keeps the direction cosine s along it, so n' = √((n² − s²) / (1 − s²)) (Bravais’s index, from memory). Directions
 * are tangents in air.
 */
export const indexAcross = (index: number, across: number, along: number): number => {
  const s2 = (along * along) / (1 + across * across + along * along);
  return Math.sqrt((index ** 2 - s2) / (1 - s2));
};

/** Direction of light from the eye to a point of the rib. */
const towards = (eye: Eye, x: number, z: number): Direction => {
  if ('angleRad' in eye) return { x: -Math.sin(eye.angleRad), z: Math.cos(eye.angleRad) };
  const run = x - eye.offsetMm;
  const depth = z + eye.distanceMm;
  const length = Math.hypot(run, depth);
  return { x: run / length, z: depth / length };
};

/**
 * Snell’s law for a unit direction that meets a surface.
 * @param normal points back against the ray.
 * @param ratio index on this side / index beyond.
 * @returns undefined for total reflection.
 */
const refract = (way: Direction, normal: Direction, ratio: number): Direction | undefined => {
  const cosine = -(way.x * normal.x + way.z * normal.z);
  const under = 1 - ratio * ratio * (1 - cosine * cosine);
  if (under < 0) return undefined;
  const along = ratio * cosine - Math.sqrt(under);
  return { x: ratio * way.x + along * normal.x, z: ratio * way.z + along * normal.z };
};

/**
 * True when the neighbouring rib blocks the line from a point of the rib to the eye. Only the nearest neighbour
 * matters: the line passes the next one even higher.
 */
const isShadowed = (lens: LensSheet, x: number, z: number, way: Direction): boolean => {
  if (way.x === 0) return false;
  const middle = way.x < 0 ? lens.pitchMm : -lens.pitchMm;
  const radius = ribRadius(lens);
  // Backwards along the ray: (x, z) − s way, s > 0, meets the neighbour’s circle at the larger root.
  const fromX = x - middle;
  const fromZ = z - radius;
  const half = fromX * way.x + fromZ * way.z;
  const under = half * half - (fromX * fromX + fromZ * fromZ - radius * radius);
  if (under <= 0) return false;
  const back = half + Math.sqrt(under);
  const hitX = fromX - back * way.x;
  const hitZ = fromZ - back * way.z;
  return back > 1e-9 * radius && hitZ < 0 && Math.abs(hitX) < lens.pitchMm / 2;
};

/**
 * Follows the ray from the eye that passes the rib at `entryMm` to the print. Undefined when there is none: the arc
 * faces away there, or the neighbouring rib blocks it.
 * @throws RangeError that names the field for a rib that cannot exist or an entry outside it.
 */
export const traceIn = (lens: LensSheet, eye: Eye, entryMm: Mm): TracedRay | undefined => {
  checkRib(lens);
  checkOnRib(lens, entryMm, 'entryMm');
  const depth = surfaceDepth(lens, entryMm);
  const way = towards(eye, entryMm, depth);
  const normal = normalAt(lens, entryMm);
  const facing = -(way.x * normal.x + way.z * normal.z);
  if (way.z <= 0 || facing <= 0 || isShadowed(lens, entryMm, depth, way)) return undefined;
  const inside = refract(way, normal, 1 / lens.index);
  if (inside === undefined || inside.z <= 0) return undefined;
  return {
    entryMm,
    landingMm: mm(entryMm + (inside.x / inside.z) * (lens.thicknessMm - depth)),
    // An arc element dx / |n_z| appears `facing` times as wide from the eye.
    weight: facing / Math.max(1e-12, -normal.z),
  };
};

/** Light that has left the sheet. */
export interface LeavingRay {
  /** Its direction in air, positive to the right. */
  readonly angleRad: Rad;
  /** True when it then hits the neighbouring rib; published cone formulas ignore this. */
  readonly shadowed: boolean;
}

/**
 * Follows light from the print at `placeMm` that leaves the rib at `exitMm`. Undefined when it is totally reflected
 * inside.
 * @throws RangeError as `traceIn` does.
 */
export const traceOut = (lens: LensSheet, placeMm: Mm, exitMm: Mm): LeavingRay | undefined => {
  checkRib(lens);
  checkOnRib(lens, exitMm, 'exitMm');
  const depth = surfaceDepth(lens, exitMm);
  const run = exitMm - placeMm;
  const rise = lens.thicknessMm - depth;
  const length = Math.hypot(run, rise);
  const way = { x: run / length, z: -rise / length };
  const outward = normalAt(lens, exitMm);
  const inward = { x: -outward.x, z: -outward.z };
  if (way.x * outward.x + way.z * outward.z <= 0) return undefined;
  const outside = refract(way, inward, lens.index);
  if (outside === undefined || outside.z >= 0) return undefined;
  const back = { x: -outside.x, z: -outside.z };
  return {
    angleRad: rad(Math.atan2(outside.x, -outside.z)),
    shadowed: isShadowed(lens, exitMm, depth, back),
  };
};

/**
 * Where the eye’s line of sight through the crest lands, from the middle of the rib: the exact counterpart of −g x_e
 * / D. At the crest the surface is parallel to the sheet: −t tan(asin(sin θ / n)).
 */
export const exactLanding = (lens: LensSheet, eye: Eye): Mm => {
  checkRib(lens);
  const way = towards(eye, 0, 0);
  const sine = way.x / lens.index;
  return mm((lens.thicknessMm * sine) / Math.sqrt(1 - sine * sine));
};

/** Rays through the middles of `rays` equal parts of the rib’s open width; those that miss are left out. */
export const traceRib = (lens: LensSheet, eye: Eye, rays = 64): TracedRay[] => {
  checkRib(lens);
  if (!(Number.isInteger(rays) && rays > 0))
    throw new RangeError(`rays: expected a whole number above 0, received ${rays}`);
  const traced: TracedRay[] = [];
  for (let index = 0; index < rays; index += 1) {
    const ray = traceIn(lens, eye, mm(((index + 0.5) / rays - 0.5) * lens.pitchMm));
    if (ray !== undefined) traced.push(ray);
  }
  return traced;
};

const checkOnRib = (lens: LensSheet, x: number, field: string) => {
  if (!(Math.abs(x) <= (lens.pitchMm / 2) * (1 + 1e-12)))
    throw new RangeError(
      `${field}: expected a place on the rib, within ${lens.pitchMm / 2} mm of its middle, received ${x}`,
    );
};
