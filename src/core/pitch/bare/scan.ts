/**
 * The rib frequency of a bare lens in a flatbed scan, in the scan's own pixels. Found in the spectrum of
 * its rows, then made exact by phase: the scan is cut into cells, and how the phase drifts from cell to
 * cell tells what is left of the frequency across the ribs, and the tilt.
 */
import { upperMedian } from '../../numeric/median.ts';
import { fft, hann, peakPlace, powerOfTwo } from '../../numeric/fft.ts';

/** Row-major, length widthPx × heightPx; any scale, since only where light and dark lie counts. */
export interface ScanPixels {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly light: Float32Array;
}

/** One of the frequencies that the found one may be a multiple of. */
export interface Harmonic {
  /** 1: the strongest line of the spectrum itself; 2: half its frequency; 3: a third. */
  readonly divisor: 1 | 2 | 3;
  /** Amplitude at that frequency over the strongest line's. */
  readonly share: number;
  /** Amplitude there over that of the noise about it. */
  readonly overNoise: number;
}

export interface ScanLine {
  /** Cycles to the pixel of the strongest line; x to the right, y down. */
  readonly perPxX: number;
  readonly perPxY: number;
  /** Standard deviation of the frequency across the ribs, as a share of it. */
  readonly sigmaShare: number;
  /** Whether the ribs stand upright in the scan (within 45°). */
  readonly upright: boolean;
  readonly harmonics: readonly Harmonic[];
  /** Power along the axis across the ribs, for a drawing: cycles to the pixel, and decibels under the top. */
  readonly spectrum: readonly (readonly [perPx: number, decibels: number])[];
}

export type ScanMeasure =
  | { readonly ok: true; readonly line: ScanLine }
  | {
      readonly ok: false;
      readonly reason: 'too-small' | 'no-peak' | 'uneven';
      readonly sentence: string;
      readonly whatToDo: string;
    };

const LEAST_SIDE_PX = 160;
/** Fewer ribs than this tell nothing to a thousandth. */
const LEAST_CYCLES = 30;
const ROWS_LOOKED_AT = 96;
/** A line must stand this far over the noise of its rows' spectra (ours, by simulation). */
const LEAST_RISE = 12;
const DRAWN_POINTS = 360;

/** Rows across the ribs, whichever way the ribs run. */
interface Rows {
  readonly length: number;
  readonly count: number;
  readonly read: (row: number, into: Float64Array) => void;
}

const rowsOf = ({ widthPx, heightPx, light }: ScanPixels, upright: boolean): Rows =>
  upright
    ? {
        length: widthPx,
        count: heightPx,
        read: (row, into) => into.set(light.subarray(row * widthPx, (row + 1) * widthPx)),
      }
    : {
        length: heightPx,
        count: widthPx,
        read: (row, into) => {
          for (let i = 0; i < heightPx; i += 1) into[i] = light[i * widthPx + row]!;
        },
      };

/** Mean power of windowed rows, frequency 0 to a half. Tilt only turns the phase, so power adds up. */
const rowSpectrum = (rows: Rows): Float64Array => {
  const size = powerOfTwo(rows.length);
  const window = hann(rows.length);
  const row = new Float64Array(rows.length);
  const power = new Float64Array(size / 2);
  const looked = Math.min(ROWS_LOOKED_AT, rows.count);
  for (let i = 0; i < looked; i += 1) {
    rows.read(Math.floor(((i + 0.5) * rows.count) / looked), row);
    const mean = row.reduce((sum, v) => sum + v, 0) / row.length;
    const re = new Float64Array(size);
    const im = new Float64Array(size);
    for (let x = 0; x < row.length; x += 1) re[x] = (row[x]! - mean) * window[x]!;
    fft(re, im);
    for (let k = 0; k < power.length; k += 1) power[k]! += re[k]! ** 2 + im[k]! ** 2;
  }
  return power;
};

interface Peak {
  readonly perPx: number;
  /** Power over that of the noise about it. */
  readonly rise: number;
  readonly power: Float64Array;
}

/** Noise about a bin: the median of what is near, the line itself left out. */
const noiseAt = (power: Float64Array, bin: number): number => {
  const reach = Math.max(24, Math.round(power.length / 24));
  const near = (from: number, to: number) =>
    power.subarray(Math.max(1, from), Math.max(1, Math.min(power.length, to)));
  const about = [...near(bin - reach, bin - 5), ...near(bin + 6, bin + reach)];
  return Math.max(1e-30, upperMedian(about));
};

const strongest = (rows: Rows): Peak => {
  const power = rowSpectrum(rows);
  const size = power.length * 2;
  const first = Math.ceil((LEAST_CYCLES * size) / rows.length);
  let best = first;
  for (let k = first; k < power.length - 1; k += 1) if (power[k]! > power[best]!) best = k;
  return { perPx: peakPlace(power, best) / size, rise: power[best]! / noiseAt(power, best), power };
};

const harmonicsOf = ({ perPx, power }: Peak): Harmonic[] => {
  const size = power.length * 2;
  const top = power[Math.round(perPx * size)]!;
  return ([1, 2, 3] as const).map((divisor) => {
    const bin = Math.round((perPx / divisor) * size);
    let most = 0;
    for (let k = Math.max(1, bin - 2); k <= bin + 2; k += 1) most = Math.max(most, power[k] ?? 0);
    return {
      divisor,
      share: Math.sqrt(most / top),
      overNoise: Math.sqrt(most / noiseAt(power, bin)),
    };
  });
};

/** Power in decibels under the top, the strongest of every few bins. */
const drawn = (power: Float64Array): ScanLine['spectrum'] => {
  const each = Math.max(1, Math.floor(power.length / DRAWN_POINTS));
  const first = Math.ceil(power.length / 200);
  const points: [number, number][] = [];
  for (let from = first; from + each <= power.length; from += each) {
    let best = from;
    for (let k = from; k < from + each; k += 1) if (power[k]! > power[best]!) best = k;
    points.push([best / (power.length * 2), power[best]!]);
  }
  const top = Math.max(...points.map(([, p]) => p));
  return points.map(([f, p]) => [f, 10 * Math.log10(Math.max(1e-9, p / top))] as const);
};

const refuse = (
  reason: 'too-small' | 'no-peak' | 'uneven',
  sentence: string,
  whatToDo: string,
): ScanMeasure => ({ ok: false, reason, sentence, whatToDo });

/** Finds the ribs' line. @param onProgress called with 0 … 1. @throws RangeError for pixels that are not as long as they say */
export const measureScan = (
  scan: ScanPixels,
  onProgress: (share: number) => void = () => undefined,
): ScanMeasure => {
  const { widthPx, heightPx, light } = scan;
  if (light.length !== widthPx * heightPx)
    throw new RangeError(`light: expected ${widthPx * heightPx} values, received ${light.length}`);
  if (Math.min(widthPx, heightPx) < LEAST_SIDE_PX)
    return refuse(
      'too-small',
      `The scan is only ${widthPx} × ${heightPx} pixels.`,
      'Scan more of the lens, 50 mm or more both ways, at 600 dots an inch or more.',
    );
  const across = strongest(rowsOf(scan, true));
  onProgress(0.3);
  const down = strongest(rowsOf(scan, false));
  onProgress(0.6);
  const upright = across.rise >= down.rise;
  const peak = upright ? across : down;
  if (!(peak.rise >= LEAST_RISE))
    return refuse(
      'no-peak',
      'No even ribs stand out in this scan.',
      'Lay the lens with its ribs on the glass, a sheet of plain white or black paper behind it, and scan at a higher density without sharpening or “descreen”.',
    );
  return exact(rowsOf(scan, upright), peak, upright, onProgress);
};

const exact = (
  rows: Rows,
  peak: Peak,
  upright: boolean,
  onProgress: (share: number) => void,
): ScanMeasure => {
  const fitted = fitPhase(rows, peak.perPx);
  onProgress(1);
  if (fitted === undefined)
    return refuse(
      'uneven',
      'The ribs in this scan do not keep step from one side to the other.',
      'Press the lens flat on the glass, wipe it, leave out sheet edges and labels, and scan again without any correction of the picture.',
    );
  const { along, acrossRibs, sigmaShare } = fitted;
  return {
    ok: true,
    line: {
      perPxX: upright ? acrossRibs : along,
      perPxY: upright ? along : acrossRibs,
      sigmaShare,
      upright,
      harmonics: harmonicsOf(peak),
      spectrum: drawn(peak.power),
    },
  };
};

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

/** Every cell's amplitude at `perPx`: one row high, one block wide under a Hann window. */
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

/** Cycles to the row by which all blocks' phases turn from row to row: the tilt. */
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

/** Phases of sums in cycles, each taken the nearest way round from the one before. */
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

/** The frequency, both ways, from the drift of the phase; undefined where the cells do not keep step. */
const fitPhase = (rows: Rows, perPx: number) => {
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
 * Least squares through values at 0, 1, 2 …. Where neighbours stray together (a carriage that hurries
 * and lags) there are fewer independent ones, and the slope's deviation is widened for it.
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
