/**
 * Where an eye looks through one rib when it also leans along the ribs: Snell's law in three dimensions,
 * written apart from `src`. x across the ribs, y along them, z into the sheet from the crest.
 */
import type { BenchLens } from './lens-bench.ts';

type Vector = readonly [x: number, y: number, z: number];

const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const unit = (a: Vector): Vector => {
  const length = Math.sqrt(dot(a, a));
  return [a[0] / length, a[1] / length, a[2] / length];
};

const RAYS = 400;

/** Mean landing on the print across the ribs, from the rib's crest, for an eye `across` and `along` from it. */
export const landsObliquely = (
  lens: BenchLens,
  across: number,
  along: number,
  distanceMm: number,
): number => {
  let [sum, whole] = [0, 0];
  for (let i = 0; i < RAYS; i += 1) {
    const x = ((i + 0.5) / RAYS - 0.5) * lens.pitchMm;
    const upright = Math.sqrt(lens.radiusMm ** 2 - x ** 2);
    const z = lens.radiusMm - upright;
    const way = unit([x - across, -along, z + distanceMm]);
    const normal: Vector = [x / lens.radiusMm, 0, -upright / lens.radiusMm];
    const cosIn = -dot(way, normal);
    if (cosIn <= 0) continue;
    const eta = 1 / lens.index;
    const bend = eta * cosIn - Math.sqrt(1 - eta * eta * (1 - cosIn * cosIn));
    const inside = way.map((one, k) => eta * one + bend * normal[k]!) as unknown as Vector;
    // A strip of the arc, dx / cos of its slope wide, looks `cosIn` times as wide.
    const weight = (cosIn * lens.radiusMm) / upright;
    sum += weight * (x + (inside[0] / inside[2]) * (lens.thicknessMm - z));
    whole += weight;
  }
  return sum / whole;
};
