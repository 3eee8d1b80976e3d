/** The least squares of a fringe fit, linearised: the share of each band, and the prior. */
import type { FringeRow, Half } from './fringe-model.ts';
import { HARMONICS, PLACING, SHARED, WAVES_FROM, shapeAt, turnAt } from './fringe-model.ts';

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

/** Unknowns: the shared ones, then a band’s own level and tilt. */
const ALL = SHARED + 2;

/**
 * Along a row the derivatives by all unknowns are multiples of these few: the slope times x, the slope, x, and from
 * `LEVEL` on level and harmonics.
 */
const LEVEL = 3;
const KINDS = LEVEL + 1 + 2 * HARMONICS;

/** Normal equations of each band, with its own level and tilt eliminated; undefined for one without samples. */
export const normalsOf = (
  rows: readonly FringeRow[],
  bands: number,
  shared: Float64Array,
  half: Half,
  weighing: Weighing,
): (Normal | undefined)[] => {
  const all = Array.from({ length: bands }, () => new Float64Array(ALL * (ALL + 1)));
  const sums = new Float64Array(KINDS * (KINDS + 1));
  for (const row of rows) {
    sumRow(row, shared, half, weighing, sums);
    addRow(row, shared, half, weighing.ownPhase === true, sums, all[row.band]!);
  }
  return all.map(eliminated);
};

/** Sums the products of the few derivatives with each other, and with the residual in the last column. */
const sumRow = (
  row: FringeRow,
  shared: Float64Array,
  half: Half,
  { noise, robust }: Weighing,
  sums: Float64Array,
): void => {
  sums.fill(0);
  const d = new Float64Array(SHARED);
  const kinds = new Float64Array(KINDS);
  const share = 1 / (noise * noise);
  for (let k = 0; k < row.x.length; k += 1) {
    const counts = row.weight[k]! * share;
    if (counts === 0) continue;
    const left = row.value[k]! - shapeAt(shared, turnAt(shared, row, k, half), d);
    const far = robust ? Math.abs(left) / (2.5 * noise) : 0;
    const weight = far > 1 ? counts / far : counts;
    kinds[0] = d[0]! * row.x[k]!;
    kinds[1] = d[0]!;
    kinds[2] = row.x[k]!;
    for (let i = LEVEL; i < KINDS; i += 1) kinds[i] = d[i - 1]!;
    for (let i = 0; i < KINDS; i += 1) {
      const times = weight * kinds[i]!;
      const line = i * (KINDS + 1);
      for (let j = i; j < KINDS; j += 1) sums[line + j]! += times * kinds[j]!;
      sums[line + KINDS]! += times * left;
    }
  }
};

/** Adds a row’s sums to those of its band: each unknown is its kind times a factor that holds for the whole row. */
const addRow = (
  row: FringeRow,
  shared: Float64Array,
  half: Half,
  ownPhase: boolean,
  sums: Float64Array,
  band: Float64Array,
): void => {
  const beat = row.lines - shared[0]!;
  const down = row.y / half.y;
  const kind = new Uint8Array(ALL);
  const factor = new Float64Array(ALL);
  const set = (unknown: number, ofKind: number, times: number) => {
    kind[unknown] = ofKind;
    factor[unknown] = times;
  };
  set(0, 0, -1);
  set(1, 1, ownPhase ? 1 : -row.y);
  for (let k = 2; k < PLACING; k += 1) set(k, k + 1, 1);
  set(PLACING, 1, beat);
  set(PLACING + 1, 1, beat * down);
  set(PLACING + 2, 0, beat / half.x);
  set(PLACING + 3, 0, (beat / half.x) * down);
  set(SHARED, LEVEL, 1);
  set(SHARED + 1, 2, 1 / half.x);
  for (let i = 0; i < ALL; i += 1) {
    const at = kind[i]!;
    const line = i * (ALL + 1);
    for (let j = i; j < ALL; j += 1) {
      const other = kind[j]!;
      const sum = sums[Math.min(at, other) * (KINDS + 1) + Math.max(at, other)]!;
      band[line + j]! += factor[i]! * factor[j]! * sum;
    }
    band[line + ALL]! += factor[i]! * sums[at * (KINDS + 1) + KINDS]!;
  }
};

/** Schur complement over the last two unknowns, which have a prior. */
const eliminated = (sums: Float64Array): Normal | undefined => {
  const get = (i: number, j: number) => sums[Math.min(i, j) * (ALL + 1) + Math.max(i, j)]!;
  // Samples are many and alike: the prior counts as one independent sample in thirty.
  const prior = 1 / LEVEL_DOUBT ** 2;
  const [p, q] = [SHARED, SHARED + 1];
  const [pp, qq, pq] = [get(p, p) + prior, get(q, q) + prior, get(p, q)];
  const under = pp * qq - pq * pq;
  if (!(get(p, p) > 0)) return undefined;
  const matrix = new Float64Array(SHARED * SHARED);
  const right = new Float64Array(SHARED);
  const [rp, rq] = [sums[p * (ALL + 1) + ALL]!, sums[q * (ALL + 1) + ALL]!];
  for (let i = 0; i < SHARED; i += 1) {
    const [ip, iq] = [get(i, p), get(i, q)];
    const byP = (ip * qq - iq * pq) / under;
    const byQ = (iq * pp - ip * pq) / under;
    right[i] = sums[i * (ALL + 1) + ALL]! - byP * rp - byQ * rq;
    for (let j = 0; j < SHARED; j += 1)
      matrix[i * SHARED + j] = get(i, j) - byP * get(j, p) - byQ * get(j, q);
  }
  return { matrix, right };
};
