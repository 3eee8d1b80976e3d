/**
 * One pitch, one skew and one shape of fringe for all bands at once. Seen under the lens, band b has at
 * (x, y) the phase ψ = x / p_b + Δ / p_b − f x − v y, in turns: p_b the band's pitch, Δ where the
 * camera looks beside the ribs (view.ts), f and v the lens's own lines to the mm across and along, so
 * skew = atan(v / f). All bands have a rib's middle at the middle of their dots, so they share their
 * phase there, and the sign of f − 1/p_b is known from how fringes change from band to band.
 */
import { solve } from '../../numeric/solve.ts';

/** One row of samples: reflectance, and the part of ψ that is known. */
export interface FringeRow {
  readonly band: number;
  readonly y: number;
  readonly x: Float64Array;
  /** 1 / p_b, lines to the mm. */
  readonly lines: number;
  /** x / p_b + Δ / p_b, turns. */
  readonly known: Float64Array;
  readonly value: Float64Array;
  /** 0 … 1 */
  readonly weight: Float64Array;
}

const TAU = 2 * Math.PI;
const HARMONICS = 3;
/**
 * f, v, level, then cos and sin of each harmonic; then how far the marks mislead about x, in mm:
 * shift, shift with y, stretch, stretch with y. Marks under ribs are seen to a part of a rib only.
 */
const WAVES_FROM = 3;
const PLACING = WAVES_FROM + 2 * HARMONICS;
const SHARED = PLACING + 4;
/** Stiffness of the higher harmonics, which few fringes leave open: they stay under this, about. */
const HIGHER_DOUBT = 0.2;
/** How far the level and tilt of one band may be from the common one: light is never perfectly undone. */
const LEVEL_DOUBT = 0.02;

export interface Searched {
  readonly f: number;
  readonly v: number;
  readonly strength: number;
}

/** Ranges: middle ± reach, in evenly spaced steps. */
export interface Range {
  readonly middle: number;
  readonly reach: number;
  readonly step: number;
}

const valuesOf = ({ middle, reach, step }: Range): number[] => {
  const each = Math.ceil(reach / step);
  return Array.from({ length: 2 * each + 1 }, (_, i) => middle + (i - each) * step);
};

/** The strongest places of the plain matched filter over f and v, best first, no two neighbours. */
export const searchFringes = (
  rows: readonly FringeRow[],
  across: Range,
  along: Range,
  most: number,
): Searched[] => {
  const fs = valuesOf(across);
  const vs = valuesOf(along);
  const total = rows.reduce((sum, row) => sum + row.weight.reduce((s, w) => s + w, 0), 0);
  const mean =
    rows.reduce(
      (sum, row) => sum + row.value.reduce((s, one, i) => s + one * row.weight[i]!, 0),
      0,
    ) / total;
  const re = new Float64Array(fs.length * vs.length);
  const im = new Float64Array(fs.length * vs.length);
  for (const row of rows) {
    fs.forEach((f, i) => {
      let c = 0;
      let s = 0;
      for (let k = 0; k < row.x.length; k += 2) {
        const angle = TAU * (row.known[k]! - f * row.x[k]!);
        const value = (row.value[k]! - mean) * row.weight[k]!;
        c += value * Math.cos(angle);
        s -= value * Math.sin(angle);
      }
      vs.forEach((v, j) => {
        const [cos, sin] = [Math.cos(TAU * v * row.y), Math.sin(TAU * v * row.y)];
        re[i * vs.length + j]! += c * cos - s * sin;
        im[i * vs.length + j]! += s * cos + c * sin;
      });
    });
  }
  const strength = re.map((one, i) => Math.hypot(one, im[i]!) / total);
  const at = (i: number, j: number) =>
    i < 0 || j < 0 || i >= fs.length || j >= vs.length ? -1 : strength[i * vs.length + j]!;
  const peaks: Searched[] = [];
  fs.forEach((f, i) => {
    vs.forEach((v, j) => {
      const here = at(i, j);
      for (const di of [-1, 0, 1])
        for (const dj of [-1, 0, 1])
          if ((di !== 0 || dj !== 0) && at(i + di, j + dj) > here) return;
      peaks.push({ f, v, strength: here });
    });
  });
  return peaks.sort((a, b) => b.strength - a.strength).slice(0, most);
};

export interface FringeFit {
  readonly f: number;
  readonly v: number;
  /** Amplitude of the first harmonic, in reflectance. */
  readonly amplitude: number;
  /** Share of the weighted variance that the fit explains, 0 … 1. */
  readonly explained: number;
  /** Root mean square of what is left. */
  readonly rms: number;
  /** Variances and covariance of f and v by leaving out one band after the other. */
  readonly varF: number;
  readonly varV: number;
  /** For each band: f as this band alone would have it, and its variance; rms of what is left in it. */
  readonly alone: readonly { readonly f: number; readonly varF: number; readonly rms: number }[];
}

interface Normal {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
}

export interface FitCare {
  readonly rounds: number;
  /** Standard deviation of a corner mark's place across the ribs. */
  readonly cornerDoubtMm: number;
}

/** Gauss–Newton from (f, v). `counted`: bands that take part. */
export const fitFringes = (
  rows: readonly FringeRow[],
  bands: number,
  counted: ReadonlySet<number>,
  from: { readonly f: number; readonly v: number },
  { rounds, cornerDoubtMm }: FitCare,
): FringeFit | undefined => {
  const shared = new Float64Array(SHARED);
  shared[0] = from.f;
  shared[1] = from.v;
  const used = rows.filter((row) => counted.has(row.band));
  const halfX = Math.max(...used.map((row) => Math.abs(row.x[0]!)));
  const halfY = Math.max(...used.map((row) => Math.abs(row.y)));
  let noise = 0.05;
  let normals: (Normal | undefined)[] = [];
  // The shape alone first, then all; noise and outliers' weights follow what is left.
  for (let round = 0; round < rounds; round += 1) {
    normals = normalsOf(rows, bands, shared, halfX, halfY, noise, round > 2);
    const [matrix, right] = [new Float64Array(SHARED * SHARED), new Float64Array(SHARED)];
    normals.forEach((one, band) => {
      if (one === undefined || !counted.has(band)) return;
      one.matrix.forEach((value, i) => (matrix[i]! += value));
      one.right.forEach((value, i) => (right[i]! += value));
    });
    const free = round === 0 ? 2 : 0;
    if (free > 0)
      for (let k = 0; k < free; k += 1)
        matrix[k * SHARED + k]! += 1e12 * (matrix[2 * SHARED + 2]! + 1);
    stiffen(matrix, right, shared, cornerDoubtMm);
    const step = solve(matrix, right);
    if (step === undefined) return undefined;
    for (let k = 0; k < SHARED; k += 1) shared[k]! += step[k]!;
    noise = Math.max(0.004, leftOver(used, shared, halfX, halfY).rms);
  }
  const { rms, explained } = leftOver(used, shared, halfX, halfY);
  return {
    f: shared[0],
    v: shared[1],
    amplitude: Math.hypot(shared[3]!, shared[4]!),
    explained,
    rms,
    ...withoutEach(normals, counted, shared, cornerDoubtMm),
    alone: aloneOf(
      normalsOf(rows, bands, shared, halfX, halfY, noise, true, true),
      rows,
      bands,
      shared,
      halfX,
      halfY,
    ),
  };
};

/**
 * A stretch of x looks much like another pitch where all fringes lie on one side: it is left to the
 * stated doubt, and here only given a little room.
 */
const doubtOf = (k: number, cornerDoubtMm: number): number => {
  if (k < PLACING) return HIGHER_DOUBT;
  return k < PLACING + 2 ? cornerDoubtMm : cornerDoubtMm / 10;
};

/** What is believed before anything is seen. */
const stiffen = (
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

/** ψ at one sample of a row, in turns. */
const turnAt = (
  shared: Float64Array,
  row: FringeRow,
  k: number,
  halfX: number,
  halfY: number,
): number => {
  const x = row.x[k]!;
  const down = row.y / halfY;
  const aside =
    shared[PLACING]! +
    shared[PLACING + 1]! * down +
    (shared[PLACING + 2]! + shared[PLACING + 3]! * down) * (x / halfX);
  return row.known[k]! - shared[0]! * x - shared[1]! * row.y + aside * (row.lines - shared[0]!);
};

/** Value, slope by ψ, and the shared model's derivatives at one sample. */
const shapeAt = (shared: Float64Array, psi: number, out: Float64Array): number => {
  let value = shared[2]!;
  let slope = 0;
  const [c1, s1] = [Math.cos(TAU * psi), Math.sin(TAU * psi)];
  let [c, s] = [c1, s1];
  for (let h = 1; h <= HARMONICS; h += 1) {
    const [a, b] = [shared[1 + 2 * h]!, shared[2 + 2 * h]!];
    value += a * c + b * s;
    slope += TAU * h * (b * c - a * s);
    out[1 + 2 * h] = c;
    out[2 + 2 * h] = s;
    [c, s] = [c * c1 - s * s1, s * c1 + c * s1];
  }
  out[2] = 1;
  out[0] = slope;
  return value;
};

/** Normal equations of each band, its own level and tilt already eliminated. */
const normalsOf = (
  rows: readonly FringeRow[],
  bands: number,
  shared: Float64Array,
  halfX: number,
  halfY: number,
  noise: number,
  robust: boolean,
  ownPhase = false,
): (Normal | undefined)[] => {
  const n = SHARED + 2;
  const all = Array.from({ length: bands }, () => new Float64Array(n * (n + 1)));
  const d = new Float64Array(n);
  for (const row of rows) {
    const sums = all[row.band]!;
    for (let k = 0; k < row.x.length; k += 1) {
      const x = row.x[k]!;
      const left = row.value[k]! - shapeAt(shared, turnAt(shared, row, k, halfX, halfY), d);
      const slope = d[0]!;
      d[0] = -slope * x;
      d[1] = ownPhase ? slope : -slope * row.y;
      const beat = slope * (row.lines - shared[0]!);
      d[PLACING] = beat;
      d[PLACING + 1] = beat * (row.y / halfY);
      d[PLACING + 2] = beat * (x / halfX);
      d[PLACING + 3] = d[PLACING + 2]! * (row.y / halfY);
      d[SHARED] = 1;
      d[SHARED + 1] = x / halfX;
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

const leftOver = (
  rows: readonly FringeRow[],
  shared: Float64Array,
  halfX: number,
  halfY: number,
) => {
  const d = new Float64Array(SHARED + 2);
  let [weights, first, second, squares] = [0, 0, 0, 0];
  for (const row of rows)
    for (let k = 0; k < row.x.length; k += 1) {
      const w = row.weight[k]!;
      const value = row.value[k]!;
      const left = value - shapeAt(shared, turnAt(shared, row, k, halfX, halfY), d);
      weights += w;
      first += w * value;
      second += w * value * value;
      squares += w * left * left;
    }
  const variance = second / weights - (first / weights) ** 2;
  return { rms: Math.sqrt(squares / weights), explained: 1 - squares / weights / variance };
};

/** Jackknife over the bands: what is left is alike within a band, so samples do not count one by one. */
const withoutEach = (
  normals: readonly (Normal | undefined)[],
  counted: ReadonlySet<number>,
  shared: Float64Array,
  cornerDoubtMm: number,
) => {
  const [matrix, right] = [new Float64Array(SHARED * SHARED), new Float64Array(SHARED)];
  const kept = normals.filter((one, band): one is Normal => one !== undefined && counted.has(band));
  for (const one of kept) {
    one.matrix.forEach((value, i) => (matrix[i]! += value));
    one.right.forEach((value, i) => (right[i]! += value));
  }
  stiffen(matrix, right, shared, cornerDoubtMm);
  const steps = kept.map((one) =>
    solve(
      matrix.map((value, i) => value - one.matrix[i]!),
      right.map((value, i) => value - one.right[i]!),
    ),
  );
  const spread = (k: number) => {
    const values = steps.map((step) => step?.[k] ?? Infinity);
    const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
    const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    return ((values.length - 1) / values.length) * squares;
  };
  return { varF: spread(0), varV: spread(1) };
};

/** Each band's own f: the shape held, f and the band's own phase free. */
const aloneOf = (
  normals: readonly (Normal | undefined)[],
  rows: readonly FringeRow[],
  bands: number,
  shared: Float64Array,
  halfX: number,
  halfY: number,
) =>
  Array.from({ length: bands }, (_, band) => {
    const mine = rows.filter((row) => row.band === band);
    const { rms } = leftOver(mine, shared, halfX, halfY);
    const one = normals[band];
    if (one === undefined) return { f: shared[0]!, varF: Infinity, rms };
    // Asked with the band's own phase in the place of v.
    const at = (i: number, j: number) => one.matrix[i * SHARED + j]!;
    const under = at(0, 0) * at(1, 1) - at(0, 1) ** 2;
    if (!(under > 1e-9 * at(0, 0) * at(1, 1))) return { f: shared[0]!, varF: Infinity, rms };
    const step = (at(1, 1) * one.right[0]! - at(0, 1) * one.right[1]!) / under;
    return { f: shared[0]! + step, varF: at(1, 1) / under, rms };
  });
