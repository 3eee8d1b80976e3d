/** The least squares of a fringe fit, linearised: the share of each band, and the prior. */
import type { FringeRow, Half } from './fringe-model.ts';
import { PLACING, SHARED, WAVES_FROM, shapeAt, turnAt } from './fringe-model.ts';

/** Prior standard deviation of the higher harmonics, which few fringes leave open. */
const HIGHER_DOUBT = 0.2;
/** How far level and tilt of a band may differ from the common ones: light is never evened out perfectly. */
const LEVEL_DOUBT = 0.02;

/** Row-major, SHARED × SHARED, and the right side: solves for the change of the shared unknowns. */
export interface Normal {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
}

/**
 * Prior standard deviation of an unknown. Where all fringes lie on one side, a stretch of x looks much like another
 * pitch: it belongs to the stated uncertainty and gets only a little room here.
 */
const doubtOf = (k: number, cornerDoubtMm: number): number => {
  if (k < PLACING) return HIGHER_DOUBT;
  return k < PLACING + 2 ? cornerDoubtMm : cornerDoubtMm / 10;
};

/** Adds the prior. */
export const stiffen = (
  matrix: Float64Array,
  right: Float64Array,
  shared: Float64Array,
  cornerDoubtMm: number,
): void => {
  for (let k = WAVES_FROM + 2; k < SHARED; k += 1) {
    const stiff = 1 / doubtOf(k, cornerDoubtMm) ** 2;
    matrix[k * (SHARED + 1)]! += stiff;
    right[k]! -= shared[k]! * stiff;
  }
};

export interface Weighing {
  /** Standard deviation of a sample. */
  readonly noise: number;
  /** True: outliers count less. */
  readonly robust: boolean;
  /** True: the band’s own phase takes the place of v. */
  readonly ownPhase?: boolean;
}

/** Normal equations of each band, with its own level and tilt eliminated; undefined for one without samples. */
export const normalsOf = (
  rows: readonly FringeRow[],
  bands: number,
  shared: Float64Array,
  half: Half,
  { noise, robust, ownPhase = false }: Weighing,
): (Normal | undefined)[] => {
  const n = SHARED + 2;
  const all = Array.from({ length: bands }, () => new Float64Array(n * (n + 1)));
  const d = new Float64Array(n);
  for (const row of rows) {
    const sums = all[row.band]!;
    for (let k = 0; k < row.x.length; k += 1) {
      const x = row.x[k]!;
      const left = row.value[k]! - shapeAt(shared, turnAt(shared, row, k, half), d);
      const slope = d[0]!;
      d[0] = -slope * x;
      d[1] = ownPhase ? slope : -slope * row.y;
      const beat = slope * (row.lines - shared[0]!);
      d[PLACING] = beat;
      d[PLACING + 1] = beat * (row.y / half.y);
      d[PLACING + 2] = beat * (x / half.x);
      d[PLACING + 3] = d[PLACING + 2]! * (row.y / half.y);
      d[SHARED] = 1;
      d[SHARED + 1] = x / half.x;
      const far = robust ? Math.abs(left) / (2.5 * noise) : 0;
      const weight = (row.weight[k]! / (noise * noise)) * (far > 1 ? 1 / far : 1);
      if (weight === 0) continue;
      for (let i = 0; i < n; i += 1) {
        const times = weight * d[i]!;
        for (let j = i; j < n; j += 1) sums[i * (n + 1) + j]! += times * d[j]!;
        sums[i * (n + 1) + n]! += times * left;
      }
    }
  }
  return all.map((sums) => eliminated(sums, n));
};

/** Schur complement over the last two unknowns, which have a prior. */
const eliminated = (sums: Float64Array, n: number): Normal | undefined => {
  const get = (i: number, j: number) => sums[Math.min(i, j) * (n + 1) + Math.max(i, j)]!;
  // Samples are many and alike: the prior counts as one independent sample in thirty.
  const prior = 1 / LEVEL_DOUBT ** 2;
  const [p, q] = [SHARED, SHARED + 1];
  const [pp, qq, pq] = [get(p, p) + prior, get(q, q) + prior, get(p, q)];
  const under = pp * qq - pq * pq;
  if (!(get(p, p) > 0)) return undefined;
  const matrix = new Float64Array(SHARED * SHARED);
  const right = new Float64Array(SHARED);
  const [rp, rq] = [sums[p * (n + 1) + n]!, sums[q * (n + 1) + n]!];
  for (let i = 0; i < SHARED; i += 1) {
    const [ip, iq] = [get(i, p), get(i, q)];
    const byP = (ip * qq - iq * pq) / under;
    const byQ = (iq * pp - ip * pq) / under;
    right[i] = sums[i * (n + 1) + n]! - byP * rp - byQ * rq;
    for (let j = 0; j < SHARED; j += 1)
      matrix[i * SHARED + j] = get(i, j) - byP * get(j, p) - byQ * get(j, q);
  }
  return { matrix, right };
};
