/** Where rays through one rib meet the print, traced once and looked up for every pixel. */
import type { BenchLens } from './lens-bench.ts';
import { traceRay } from './lens-bench.ts';

export const PLACES = 48;
export const SLOPES = 25;
export const ALONGS = 5;

/**
 * Where the print is met, from the rib's middle, for each apparent place on the rib (at the height of
 * the grooves), each slope across and each slope along. Index (along × SLOPES + across) × (PLACES + 1) + place.
 */
export const landingTable = (
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
