/**
 * Refines the rib frequency by phase. The scan is cut into cells; the drift of the phase from cell to cell gives the
 * rest of the frequency across the ribs, and the tilt.
 */
import { fft, hann, peakPlace, powerOfTwo } from '../../numeric/fft.ts';
import type { Rows } from './scan-rows.ts';

/** Complex amplitudes of cells, blocks × rows, row-major. */
interface Cells {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly blocks: number;
  readonly rows: number;
  readonly blockPx: number;
  readonly rowPx: number;
}

const MOST_BLOCKS = 24;
const MOST_ROWS = 4096;

/** The amplitude of every cell at `perPx`: one row high, one block wide, Hann window. */
const demodulate = (rows: Rows, perPx: number): Cells => {
  const blocks = Math.max(6, Math.min(MOST_BLOCKS, Math.floor((rows.length * perPx) / 8)));
  const blockPx = Math.floor(rows.length / blocks);
  const rowPx = Math.ceil(rows.count / MOST_ROWS);
  const count = Math.floor(rows.count / rowPx);
  const window = hann(blockPx);
  const cos = Float64Array.from({ length: rows.length }, (_, x) =>
    Math.cos(2 * Math.PI * perPx * x),
  );
  const sin = Float64Array.from({ length: rows.length }, (_, x) =>
    Math.sin(2 * Math.PI * perPx * x),
  );
  const re = new Float64Array(blocks * count);
  const im = new Float64Array(blocks * count);
  const row = new Float64Array(rows.length);
  for (let y = 0; y < count; y += 1) {
    rows.read(y * rowPx, row);
    for (let b = 0; b < blocks; b += 1) {
      const from = b * blockPx;
      let mean = 0;
      for (let i = 0; i < blockPx; i += 1) mean += row[from + i]!;
      mean /= blockPx;
      let [r, m] = [0, 0];
      for (let i = 0; i < blockPx; i += 1) {
        const value = (row[from + i]! - mean) * window[i]!;
        r += value * cos[from + i]!;
        m -= value * sin[from + i]!;
      }
      re[y * blocks + b] = r;
      im[y * blocks + b] = m;
    }
  }
  return { re, im, blocks, rows: count, blockPx, rowPx };
};

/** Cycles per row by which the phases of all blocks turn: the tilt. */
const turnAlong = ({ re, im, blocks, rows }: Cells): number => {
  const size = powerOfTwo(rows) * 2;
  const window = hann(rows);
  const power = new Float64Array(size);
  for (let b = 0; b < blocks; b += 1) {
    const r = new Float64Array(size);
    const m = new Float64Array(size);
    for (let y = 0; y < rows; y += 1) {
      r[y] = re[y * blocks + b]! * window[y]!;
      m[y] = im[y * blocks + b]! * window[y]!;
    }
    fft(r, m);
    for (let k = 0; k < size; k += 1) power[k]! += r[k]! ** 2 + m[k]! ** 2;
  }
  let best = 0;
  for (let k = 1; k < size; k += 1) if (power[k]! > power[best]!) best = k;
  const around = [best - 1, best, best + 1].map((k) => power[(k + size) % size]!);
  const place = best + peakPlace(around, 1) - 1;
  return (place > size / 2 ? place - size : place) / size;
};

interface Sum {
  re: number;
  im: number;
}

/** Phases of sums in cycles, each unwrapped to the one before. */
const unwrapped = (sums: readonly Sum[]): number[] => {
  const out: number[] = [];
  for (const { re, im } of sums) {
    const phase = Math.atan2(im, re) / (2 * Math.PI);
    const before = out.at(-1);
    out.push(before === undefined ? phase : phase + Math.round(before - phase));
  }
  return out;
};

const LEAST_KEEPING_STEP = 0.4;
const RESULT_ROWS = 24;

/** The frequency both ways from the drift of the phase; undefined where the cells do not keep step. */
export const fitPhase = (rows: Rows, perPx: number) => {
  const cells = demodulate(rows, perPx);
  const turn = turnAlong(cells);
  const { blocks, blockPx, rowPx } = cells;
  const columns: Sum[] = Array.from({ length: blocks }, () => ({ re: 0, im: 0 }));
  const bands: Sum[] = Array.from({ length: Math.min(RESULT_ROWS, cells.rows) }, () => ({
    re: 0,
    im: 0,
  }));
  let whole = 0;
  for (let y = 0; y < cells.rows; y += 1) {
    const [c, s] = [Math.cos(2 * Math.PI * turn * y), Math.sin(2 * Math.PI * turn * y)];
    const band = bands[Math.floor((y * bands.length) / cells.rows)]!;
    for (let b = 0; b < blocks; b += 1) {
      const [r, m] = [cells.re[y * blocks + b]!, cells.im[y * blocks + b]!];
      const re = r * c + m * s;
      const im = m * c - r * s;
      columns[b]!.re += re;
      columns[b]!.im += im;
      band.re += re;
      band.im += im;
      whole += Math.hypot(re, im);
    }
  }
  const kept = columns.reduce((sum, { re, im }) => sum + Math.hypot(re, im), 0) / whole;
  const across = line(unwrapped(columns));
  const along = line(unwrapped(bands));
  if (!(kept >= LEAST_KEEPING_STEP) || across.scatter > 0.12) return undefined;
  const acrossRibs = perPx + across.slope / blockPx;
  const bandPx = (cells.rows * rowPx) / bands.length;
  return {
    acrossRibs,
    along: turn / rowPx + along.slope / bandPx,
    sigmaShare: across.sigma / blockPx / acrossRibs,
  };
};

/**
 * Least squares through values at 0, 1, 2 …. Where neighbours deviate together (an uneven carriage), fewer values are
 * independent, and the deviation of the slope is widened.
 */
const line = (values: readonly number[]) => {
  const n = values.length;
  const middle = (n - 1) / 2;
  const mean = values.reduce((sum, v) => sum + v, 0) / n;
  let [xx, xy] = [0, 0];
  values.forEach((v, i) => {
    xx += (i - middle) ** 2;
    xy += (i - middle) * (v - mean);
  });
  const slope = xx > 0 ? xy / xx : 0;
  const rest = values.map((v, i) => v - mean - slope * (i - middle));
  const square = rest.reduce((sum, v) => sum + v * v, 0);
  const neighbours = rest.slice(1).reduce((sum, v, i) => sum + v * rest[i]!, 0);
  const alike = square > 0 ? Math.max(0, Math.min(0.9, neighbours / square)) : 0;
  const scatter = Math.sqrt(square / Math.max(1, n - 2));
  const sigma = (scatter / Math.sqrt(xx)) * Math.sqrt((1 + alike) / (1 - alike));
  return { slope, scatter, sigma };
};
