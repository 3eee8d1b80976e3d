/**
 * Which part of the bands the lens covers. Beside the lens the print is flat, rib by rib a quarter dark, where the fit
 * of the rest expects fringes.
 */
import type { FringeFit } from './fringe-fit.ts';
import type { FringeRow } from './fringe-model.ts';
import { SHARED, shapeAt, turnAt } from './fringe-model.ts';
import { PLACES } from './sample.ts';

/** Parts of a row, and how far around a part it is judged: rows and parts, each way. */
const PARTS = 12;
const IN_PART = PLACES / PARTS;
const AROUND = { rows: 3, parts: 1 } as const;
/** How far beyond a bare part samples mix light from both sides. */
const BESIDE = { rows: 2, parts: 1 } as const;
/** Share of the expected fringes below which a part shows none, and of their variance below which it is flat. */
const SHOWN = 0.5;
const FLAT = 0.3;
/** Parts where less than this share of the fringes' mean variance is expected cannot tell. */
const TELLS = 0.1;

export interface Covered {
  /** The rows, without weight where the lens does not lie. */
  readonly rows: readonly FringeRow[];
  /** Share of the bands without a lens, 0 … 1. */
  readonly bare: number;
}

/** Weight, expected and seen light of one part of a row, and their products; light against the common level. */
type Sums = readonly [w: number, pp: number, pa: number, a: number, aa: number];

const sumsOf = (row: FringeRow, part: number, { shared, half }: FringeFit): Sums => {
  const scratch = new Float64Array(SHARED + 2);
  let w = 0;
  let pp = 0;
  let pa = 0;
  let a1 = 0;
  let aa = 0;
  for (let k = part * IN_PART; k < (part + 1) * IN_PART; k += 1) {
    const weight = row.weight[k]!;
    const p = shapeAt(shared, turnAt(shared, row, k, half), scratch) - shared[2]!;
    const a = row.value[k]! - shared[2]!;
    w += weight;
    pp += weight * p * p;
    pa += weight * p * a;
    a1 += weight * a;
    aa += weight * a * a;
  }
  return [w, pp, pa, a1, aa];
};

/** Calls for each part around a part that exists. */
const around = (
  rows: number,
  at: number,
  reach: { readonly rows: number; readonly parts: number },
  visit: (index: number) => void,
): void => {
  const [row, part] = [Math.floor(at / PARTS), at % PARTS];
  for (let r = Math.max(0, row - reach.rows); r <= Math.min(rows - 1, row + reach.rows); r += 1)
    for (
      let p = Math.max(0, part - reach.parts);
      p <= Math.min(PARTS - 1, part + reach.parts);
      p += 1
    )
      visit(r * PARTS + p);
};

/** @param rows in the order of the bands, top to bottom. */
export const coveredBy = (rows: readonly FringeRow[], fit: FringeFit): Covered => {
  const sums = rows.flatMap((row) => Array.from({ length: PARTS }, (_, p) => sumsOf(row, p, fit)));
  const usual = (fit.shared[3]! ** 2 + fit.shared[4]! ** 2) / 2;
  const bare = sums.map((_, at) => {
    const all = [0, 0, 0, 0, 0];
    around(rows.length, at, AROUND, (index) => {
      const one = sums[index]!;
      for (let i = 0; i < all.length; i += 1) all[i]! += one[i]!;
    });
    const [w, pp, pa, a, aa] = all as unknown as Sums;
    if (w === 0 || pp / w < TELLS * usual) return false;
    return pa / pp < SHOWN && aa / w - (a / w) ** 2 < (FLAT * pp) / w;
  });
  const left = bare.map((_, at) => {
    let near = false;
    around(rows.length, at, BESIDE, (index) => (near ||= bare[index]!));
    return near;
  });
  return {
    rows: rows.map((row, r) => ({
      ...row,
      weight: row.weight.map((weight, k) =>
        left[r * PARTS + Math.floor(k / IN_PART)] === true ? 0 : weight,
      ),
    })),
    bare: bare.filter(Boolean).length / bare.length,
  };
};
