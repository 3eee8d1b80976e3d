/**
 * Fits one pitch, one skew and one fringe shape to all bands. Under the lens, band b has at (x, y) the phase ψ = x /
 * p_b + Δ / p_b − f x − v y, in turns: p_b is the band’s pitch, Δ where the camera looks beside the ribs (view.ts), f
 * and v the lens’s lines per mm across and along, so skew = atan(v / f). All bands have the middle of a rib at the
 * middle of their dots, so they share the phase there, and the sign of f − 1/p_b follows from how fringes change from
 * band to band.
 */
import { solve } from '../../numeric/solve.ts';
import type { FringeRow, Half } from './fringe-model.ts';
import { SHARED, TAU, leftOver } from './fringe-model.ts';
import type { Normal } from './fringe-normals.ts';
import { normalsOf, stiffen } from './fringe-normals.ts';

export type { FringeRow } from './fringe-model.ts';

export interface Searched {
  readonly f: number;
  readonly v: number;
  readonly strength: number;
}

/** A range to search: middle ± reach in equal steps. */
export interface Range {
  readonly middle: number;
  readonly reach: number;
  readonly step: number;
}

const valuesOf = ({ middle, reach, step }: Range): number[] => {
  const each = Math.ceil(reach / step);
  return Array.from({ length: 2 * each + 1 }, (_, i) => middle + (i - each) * step);
};

/**
 * The sums over a row of value × e^(−2πi (known − f x)), for one f after the other: every second sample is turned on
 * by a step, which is cheaper than an angle for each f.
 */
const turnsAlong = (row: FringeRow, mean: number, first: number, step: number) => {
  const count = Math.ceil(row.x.length / 2);
  const [real, imaginary] = [new Float64Array(count), new Float64Array(count)];
  const [onReal, onImaginary] = [new Float64Array(count), new Float64Array(count)];
  for (let n = 0; n < count; n += 1) {
    const k = 2 * n;
    const angle = TAU * (row.known[k]! - first * row.x[k]!);
    const value = (row.value[k]! - mean) * row.weight[k]!;
    real[n] = value * Math.cos(angle);
    imaginary[n] = -value * Math.sin(angle);
    onReal[n] = Math.cos(TAU * step * row.x[k]!);
    onImaginary[n] = Math.sin(TAU * step * row.x[k]!);
  }
  return {
    next: (): { c: number; s: number } => {
      let c = 0;
      let s = 0;
      for (let n = 0; n < count; n += 1) {
        const a = real[n]!;
        const b = imaginary[n]!;
        c += a;
        s += b;
        real[n] = a * onReal[n]! - b * onImaginary[n]!;
        imaginary[n] = a * onImaginary[n]! + b * onReal[n]!;
      }
      return { c, s };
    },
  };
};

/** The strongest local maxima of the matched filter over f and v, best first. */
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
    const turns = turnsAlong(row, mean, fs[0]!, across.step);
    const cos = vs.map((v) => Math.cos(TAU * v * row.y));
    const sin = vs.map((v) => Math.sin(TAU * v * row.y));
    for (let i = 0; i < fs.length; i += 1) {
      const { c, s } = turns.next();
      for (let j = 0; j < vs.length; j += 1) {
        re[i * vs.length + j]! += c * cos[j]! - s * sin[j]!;
        im[i * vs.length + j]! += s * cos[j]! + c * sin[j]!;
      }
    }
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
  /** All shared unknowns (fringe-model.ts), and the unit of the marks' error. */
  readonly shared: Float64Array;
  readonly half: Half;
  /** Amplitude of the first harmonic, in reflectance. */
  readonly amplitude: number;
  /** Share of the weighted variance that the fit explains, 0 … 1. */
  readonly explained: number;
  /** Root mean square of the residuals. */
  readonly rms: number;
  /** Variances of f and v, by leaving out one band after the other. */
  readonly varF: number;
  readonly varV: number;
  /** For each band: f from this band alone, its variance, and the rms of its residuals. */
  readonly alone: readonly { readonly f: number; readonly varF: number; readonly rms: number }[];
}

export interface FitCare {
  readonly rounds: number;
  /** Standard deviation of a corner mark’s place across the ribs. */
  readonly cornerDoubtMm: number;
}

/** Gauss–Newton from (f, v); undefined where the equations are singular. @param counted bands that take part. */
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
  const half: Half = {
    x: Math.max(...used.map((row) => Math.abs(row.x[0]!))),
    y: Math.max(...used.map((row) => Math.abs(row.y))),
  };
  let noise = 0.05;
  let normals: (Normal | undefined)[] = [];
  // First the shape alone, then everything; noise and the weights of outliers follow the residuals.
  for (let round = 0; round < rounds; round += 1) {
    normals = normalsOf(rows, bands, shared, half, { noise, robust: round > 2 });
    const { matrix, right } = summed(normals, counted);
    if (round === 0)
      for (let k = 0; k < 2; k += 1)
        matrix[k * SHARED + k]! += 1e12 * (matrix[2 * SHARED + 2]! + 1);
    stiffen(matrix, right, shared, cornerDoubtMm);
    const step = solve(matrix, right);
    if (step === undefined) return undefined;
    for (let k = 0; k < SHARED; k += 1) shared[k]! += step[k]!;
    noise = Math.max(0.004, leftOver(used, shared, half).rms);
  }
  const { rms, explained } = leftOver(used, shared, half);
  return {
    f: shared[0],
    v: shared[1],
    shared,
    half,
    amplitude: Math.hypot(shared[3]!, shared[4]!),
    explained,
    rms,
    ...withoutEach(normals, counted, shared, cornerDoubtMm),
    alone: aloneOf(rows, bands, shared, half, noise),
  };
};

/** The normal equations of the counted bands together. */
const summed = (normals: readonly (Normal | undefined)[], counted: ReadonlySet<number>): Normal => {
  const [matrix, right] = [new Float64Array(SHARED * SHARED), new Float64Array(SHARED)];
  normals.forEach((one, band) => {
    if (one === undefined || !counted.has(band)) return;
    one.matrix.forEach((value, i) => (matrix[i]! += value));
    one.right.forEach((value, i) => (right[i]! += value));
  });
  return { matrix, right };
};
/** Jackknife over the bands: residuals are alike within a band, so samples do not count one by one. */
const withoutEach = (
  normals: readonly (Normal | undefined)[],
  counted: ReadonlySet<number>,
  shared: Float64Array,
  cornerDoubtMm: number,
) => {
  const { matrix, right } = summed(normals, counted);
  const kept = normals.filter((one, band): one is Normal => one !== undefined && counted.has(band));
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

/** f of each band alone: the shape is fixed, f and the band’s own phase are free. */
const aloneOf = (
  rows: readonly FringeRow[],
  bands: number,
  shared: Float64Array,
  half: Half,
  noise: number,
) =>
  normalsOf(rows, bands, shared, half, { noise, robust: true, ownPhase: true }).map((one, band) => {
    const mine = rows.filter((row) => row.band === band);
    const { rms } = leftOver(mine, shared, half);
    if (one === undefined) return { f: shared[0]!, varF: Infinity, rms };
    // The band’s own phase stands in the place of v.
    const at = (i: number, j: number) => one.matrix[i * SHARED + j]!;
    const under = at(0, 0) * at(1, 1) - at(0, 1) ** 2;
    if (!(under > 1e-9 * at(0, 0) * at(1, 1))) return { f: shared[0]!, varF: Infinity, rms };
    const step = (at(1, 1) * one.right[0]! - at(0, 1) * one.right[1]!) / under;
    return { f: shared[0]! + step, varF: at(1, 1) / under, rms };
  });
