/**
 * Lens types as they are commonly sold: fineness and viewing cone, of one plastic (common practice, no source). The
 * thickness follows from the cone by the trace, with ribs in focus.
 */
import type { LensSheet } from '../lens/lens.ts';
import { viewingCone } from '../lens/traced.ts';
import type { Lpi } from '../units/units.ts';
import { degToRad, lpiToMm, lpi as asLpi, mm, deg } from '../units/units.ts';

const COUNTS = [10, 15, 20, 28, 30, 40, 50, 60, 62, 75, 85, 100].map(asLpi);
const CONES_DEG = [25, 30, 35, 42, 49, 54];
const INDEX = 1.57;

/** Thickness in pitches: cone and thickness go together whatever the size, so each is solved once. */
const thicknessOf = (coneDeg: number): number => {
  const cone = degToRad(deg(coneDeg));
  // A thinner sheet has the wider cone; below this a rib in focus would be more than a half circle.
  let [thin, thick] = [INDEX / (2 * (INDEX - 1)) + 1e-6, 8];
  for (let step = 0; step < 40; step += 1) {
    const middle = (thin + thick) / 2;
    const wide = viewingCone({ pitchMm: mm(1), thicknessMm: mm(middle), index: INDEX });
    if (wide > cone) thin = middle;
    else thick = middle;
  }
  return thick;
};

export interface LensType {
  readonly lpi: Lpi;
  readonly coneDeg: number;
  readonly lens: LensSheet;
}

let made: readonly LensType[] | undefined;

/** All of them, the coarsest first. Takes some tens of milliseconds the first time. */
export const lensTypes = (): readonly LensType[] =>
  (made ??= CONES_DEG.map((coneDeg) => ({ coneDeg, thickness: thicknessOf(coneDeg) })).flatMap(
    ({ coneDeg, thickness }) =>
      COUNTS.map((lpi) => {
        const pitchMm = lpiToMm(lpi);
        const thicknessMm = mm(Number((pitchMm * thickness).toPrecision(3)));
        return { lpi, coneDeg, lens: { pitchMm, thicknessMm, index: INDEX } };
      }),
  ));
