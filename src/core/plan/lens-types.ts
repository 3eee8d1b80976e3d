/**
 * Lens types as they are commonly sold: fineness and viewing cone, of one plastic (common practice, no source), with
 * ribs in focus.
 */
import type { LensSheet } from '../lens/lens.ts';
import type { Lpi } from '../units/units.ts';
import { lpi as asLpi, lpiToMm, mm } from '../units/units.ts';

const COUNTS = [10, 15, 20, 28, 30, 40, 50, 60, 62, 75, 85, 100].map(asLpi);
const INDEX = 1.57;

/**
 * Cone in degrees and the thickness that gives it, in pitches: they go together whatever the size. Solved by the trace
 * (src/core/lens/traced.ts), and held to it by a test; thinner than 1.38 pitches no rib in focus can be.
 */
const THICKNESS_BY_CONE: readonly (readonly [coneDeg: number, pitches: number])[] = [
  [25, 3.65],
  [30, 3.055],
  [35, 2.63],
  [42, 2.205],
  [49, 1.89],
  [54, 1.697],
];

export interface LensType {
  readonly lpi: Lpi;
  readonly coneDeg: number;
  readonly lens: LensSheet;
}

/** All of them: narrow cones first, and of each the coarsest first. */
export const lensTypes: readonly LensType[] = THICKNESS_BY_CONE.flatMap(([coneDeg, pitches]) =>
  COUNTS.map((lpi) => {
    const pitchMm = lpiToMm(lpi);
    const thicknessMm = mm(Number((pitchMm * pitches).toPrecision(3)));
    return { lpi, coneDeg, lens: { pitchMm, thicknessMm, index: INDEX } };
  }),
);
