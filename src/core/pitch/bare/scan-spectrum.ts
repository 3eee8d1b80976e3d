/** The spectrum of a scan’s rows: its strongest line, the lines that it may be a multiple of, and its drawing. */
import { fft, hann, peakPlace, powerOfTwo } from '../../numeric/fft.ts';
import { upperMedian } from '../../numeric/median.ts';
import type { Rows } from './scan-rows.ts';

/** A frequency that the strongest line may be a multiple of. */
export interface Harmonic {
  /** 1: the strongest line itself; 2: half its frequency; 3: a third. */
  readonly divisor: 1 | 2 | 3;
  /** Amplitude at that frequency / amplitude of the strongest line. */
  readonly share: number;
  /** Amplitude there / amplitude of the noise around it. */
  readonly overNoise: number;
}

/** Power across the ribs: cycles per pixel, and decibels below the maximum. */
export type DrawnSpectrum = readonly (readonly [perPx: number, decibels: number])[];

/** Fewer ribs than this do not give the pitch to a thousandth. */
const LEAST_CYCLES = 30;
const ROWS_LOOKED_AT = 96;
const DRAWN_POINTS = 360;

/** Mean power of windowed rows, frequency 0 to ½. Tilt only turns the phase, so power adds up. */
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

/** A line of the spectrum, and the spectrum itself. */
export interface Peak {
  readonly perPx: number;
  /** Power / power of the noise around it. */
  readonly rise: number;
  readonly power: Float64Array;
}

/** Noise around a bin: the median nearby, the line itself left out. */
const noiseAt = (power: Float64Array, bin: number): number => {
  const reach = Math.max(24, Math.round(power.length / 24));
  const near = (from: number, to: number) =>
    power.subarray(Math.max(1, from), Math.max(1, Math.min(power.length, to)));
  const about = [...near(bin - reach, bin - 5), ...near(bin + 6, bin + reach)];
  return Math.max(1e-30, upperMedian(about));
};

/** The strongest line among those of at least `LEAST_CYCLES` ribs. */
export const strongest = (rows: Rows): Peak => {
  const power = rowSpectrum(rows);
  const size = power.length * 2;
  const first = Math.ceil((LEAST_CYCLES * size) / rows.length);
  let best = first;
  for (let k = first; k < power.length - 1; k += 1) if (power[k]! > power[best]!) best = k;
  return { perPx: peakPlace(power, best) / size, rise: power[best]! / noiseAt(power, best), power };
};

/** The peak, and the two frequencies that it may be a multiple of. */
export const harmonicsOf = ({ perPx, power }: Peak): Harmonic[] => {
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

/** The strongest of each few bins. */
export const drawn = (power: Float64Array): DrawnSpectrum => {
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
