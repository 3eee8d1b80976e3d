/**
 * What measured motion means for the print: use of the depth budget, share that stands still, camera steps, level.
 */
import { SHARP_LENTICULES, SOFT_LENTICULES } from '../../plan/depth.ts';
import type { PairMotion } from './pair.ts';
import { medianOf } from '../../numeric/median.ts';

/** From shares of the frame to lenticules on the print, minus the slide of the key plane. */
export interface Scale {
  /** Lenticules across the whole frame. */
  readonly lenticulesAcross: number;
  readonly keyShift: number;
}

export const lenticulesOf = (motion: PairMotion, { lenticulesAcross, keyShift }: Scale) =>
  motion.shift.map((share) => share * lenticulesAcross - keyShift);

export interface Spread {
  readonly places: number;
  /** Shares of the places; together 1. */
  readonly sharp: number;
  readonly soft: number;
  readonly broken: number;
  /** Ribs per view: the 2nd, 50th and 98th percentile of the places. */
  readonly front: number;
  readonly middle: number;
  readonly behind: number;
  /** Share of places that stand still: below a tenth of a rib per view. */
  readonly still: number;
}

export const STILL_LENTICULES = 0.1;

/** @param steps lenticules from frame to frame; NaN are left out. @returns undefined when nothing was measured. */
export const spreadOf = (steps: readonly number[], framesPerView = 1): Spread | undefined => {
  const sorted = Float64Array.from(steps.filter((step) => !Number.isNaN(step))).sort();
  const count = sorted.length;
  if (count === 0) return undefined;
  let [sharp, soft, still] = [0, 0, 0];
  for (const step of sorted) {
    const size = Math.abs(step) * framesPerView;
    if (size <= SHARP_LENTICULES) sharp += 1;
    else if (size <= SOFT_LENTICULES) soft += 1;
    if (Math.abs(step) < STILL_LENTICULES) still += 1;
  }
  const at = (share: number) => sorted[Math.round(share * (count - 1))]!;
  return {
    places: count,
    sharp: sharp / count,
    soft: soft / count,
    broken: (count - sharp - soft) / count,
    front: at(0.02),
    middle: at(0.5),
    behind: at(0.98),
    still: still / count,
  };
};

export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

/** Bins with edges at whole multiples of `width`, from the first occupied one to the last. */
export const histogramOf = (steps: readonly number[], width: number): Bin[] => {
  const counts = new Map<number, number>();
  for (const step of steps) {
    if (Number.isNaN(step)) continue;
    const bin = Math.floor(step / width);
    counts.set(bin, (counts.get(bin) ?? 0) + 1);
  }
  if (counts.size === 0) return [];
  const first = Math.min(...counts.keys());
  const last = Math.max(...counts.keys());
  return Array.from({ length: last - first + 1 }, (_, i) => ({
    from: (first + i) * width,
    to: (first + i + 1) * width,
    count: counts.get(first + i) ?? 0,
  }));
};

/** The median of all pairs at each place, NaN where unknown: the motion of an ordinary step. */
const ordinaryStep = (pairs: readonly Float32Array[]): number[] => {
  const [first] = pairs;
  if (first === undefined) return [];
  return Array.from(first, (_, at) => {
    const values = pairs.map((pair) => pair[at]!).filter((value) => !Number.isNaN(value));
    return values.length * 2 < pairs.length ? NaN : medianOf(values);
  });
};

export interface PairStep {
  /** The camera’s step / the ordinary step: 1 when even. NaN where the scene is too flat to measure. */
  readonly stretch: number;
  /** Lenticules by which the whole picture moves in addition: a wobble of the window. */
  readonly slip: number;
}

/** Below this spread of depths, in lenticules, a longer step looks the same as a slip. */
const FLAT_LENTICULES = 0.12;

/**
 * Each pair’s step against the ordinary one: least squares of its motion on the median motion at the same places.
 * @param pairs all on one grid, lenticules.
 */
export const stepsOf = (pairs: readonly Float32Array[]): PairStep[] => {
  const ordinary = ordinaryStep(pairs);
  return pairs.map((pair) => {
    const both: [number, number][] = [];
    ordinary.forEach((usual, at) => {
      const own = pair[at]!;
      if (!Number.isNaN(usual) && !Number.isNaN(own)) both.push([usual, own]);
    });
    if (both.length < 8) return { stretch: NaN, slip: NaN };
    return lineThrough(both);
  });
};

const lineThrough = (both: readonly (readonly [number, number])[]): PairStep => {
  // Two rounds; the second leaves out what lies far from the first line.
  let kept = both;
  let line = { stretch: NaN, slip: NaN };
  for (let round = 0; round < 2; round += 1) {
    const n = kept.length;
    const meanX = kept.reduce((sum, [x]) => sum + x, 0) / n;
    const meanY = kept.reduce((sum, [, y]) => sum + y, 0) / n;
    let [xx, xy] = [0, 0];
    for (const [x, y] of kept) {
      xx += (x - meanX) ** 2;
      xy += (x - meanX) * (y - meanY);
    }
    if (Math.sqrt(xx / n) < FLAT_LENTICULES) return { stretch: NaN, slip: meanY - meanX };
    const stretch = xy / xx;
    line = { stretch, slip: meanY - stretch * meanX };
    const { slip } = line;
    const far = 3 * medianOf(kept.map(([x, y]) => Math.abs(y - slip - stretch * x))) + 0.02;
    kept = kept.filter(([x, y]) => Math.abs(y - slip - stretch * x) <= far);
  }
  return line;
};

export interface Level {
  /** Lenticules by which the whole picture falls from one frame to the next; below 0 it rises. */
  readonly rise: number;
  /** Lenticules by which it rises more at one corner than at the next: toed-in cameras. */
  readonly keystone: number;
}

/**
 * Vertical mismatch of a pair: rise(u, v) = a + b u v by least squares, u and v −1 … 1 over the frame. Parallel
 * cameras on a level camera slide give 0 and 0; turning them towards each other adds the product term. NaN where too
 * few places are known.
 */
export const levelOf = (motion: PairMotion, lenticulesAcross: number): Level => {
  const { columns, rows, placeWidth, placeHeight, rise } = motion;
  const rises = [...rise].filter((value) => !Number.isNaN(value));
  if (rises.length < 8) return { rise: NaN, keystone: NaN };
  const level = medianOf(rises);
  let [up, down] = [0, 0];
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const value = rise[row * columns + column]!;
      if (Number.isNaN(value)) continue;
      const uv = (2 * (column + 0.5) * placeWidth - 1) * (2 * (row + 0.5) * placeHeight - 1);
      up += uv * (value - level);
      down += uv * uv;
    }
  return {
    rise: level * lenticulesAcross,
    keystone: down > 0 ? (up / down) * lenticulesAcross : NaN,
  };
};
