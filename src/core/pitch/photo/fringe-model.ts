/**
 * The fringe shape that all bands share: the expected value of a sample, and its derivatives by the unknowns. ψ and
 * its signs: see fringe-fit.ts.
 */

/** One row of samples: reflectance, and the known part of ψ. */
export interface FringeRow {
  readonly band: number;
  readonly y: number;
  readonly x: Float64Array;
  /** 1 / p_b, lines per mm. */
  readonly lines: number;
  /** x / p_b + Δ / p_b, turns. */
  readonly known: Float64Array;
  readonly value: Float64Array;
  /** 0 … 1 */
  readonly weight: Float64Array;
}

/** A whole turn, radians. */
export const TAU = 2 * Math.PI;
export const HARMONICS = 3;
/**
 * The shared unknowns in their order: f, v, level; cos and sin of each harmonic; then the error of the marks in x, in
 * mm: shift, shift with y, stretch, stretch with y. Marks under ribs are seen only to a part of a rib.
 */
export const WAVES_FROM = 3;
export const PLACING = WAVES_FROM + 2 * HARMONICS;
export const SHARED = PLACING + 4;

/** Half the extent of the rows, mm: the unit of the marks’ error. */
export interface Half {
  readonly x: number;
  readonly y: number;
}

/** ψ at one sample of a row, in turns. */
export const turnAt = (shared: Float64Array, row: FringeRow, k: number, half: Half): number => {
  const x = row.x[k]!;
  const down = row.y / half.y;
  const aside =
    shared[PLACING]! +
    shared[PLACING + 1]! * down +
    (shared[PLACING + 2]! + shared[PLACING + 3]! * down) * (x / half.x);
  return row.known[k]! - shared[0]! * x - shared[1]! * row.y + aside * (row.lines - shared[0]!);
};

/** The value at ψ. Runs for every sample of every fit, so it makes nothing that must be collected. @param out receives the slope by ψ at 0, and from 2 on the derivatives by level and harmonics. */
export const shapeAt = (shared: Float64Array, psi: number, out: Float64Array): number => {
  let value = shared[2]!;
  let slope = 0;
  const c1 = Math.cos(TAU * psi);
  const s1 = Math.sin(TAU * psi);
  let c = c1;
  let s = s1;
  for (let h = 1; h <= HARMONICS; h += 1) {
    const a = shared[1 + 2 * h]!;
    const b = shared[2 + 2 * h]!;
    value += a * c + b * s;
    slope += TAU * h * (b * c - a * s);
    out[1 + 2 * h] = c;
    out[2 + 2 * h] = s;
    const next = c * c1 - s * s1;
    s = s * c1 + c * s1;
    c = next;
  }
  out[2] = 1;
  out[0] = slope;
  return value;
};

/** Residuals: their root mean square, and the share of the samples’ variance that the shape explains. */
export const leftOver = (rows: readonly FringeRow[], shared: Float64Array, half: Half) => {
  const d = new Float64Array(SHARED + 2);
  let weights = 0;
  let first = 0;
  let second = 0;
  let squares = 0;
  for (const row of rows)
    for (let k = 0; k < row.x.length; k += 1) {
      const w = row.weight[k]!;
      const value = row.value[k]!;
      const left = value - shapeAt(shared, turnAt(shared, row, k, half), d);
      weights += w;
      first += w * value;
      second += w * value * value;
      squares += w * left * left;
    }
  const variance = second / weights - (first / weights) ** 2;
  return { rms: Math.sqrt(squares / weights), explained: 1 - squares / weights / variance };
};
