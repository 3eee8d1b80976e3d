/** What each cell of the photo looks like at every step of u, and whether that is enough to go on. */
import type { Blur } from '../../lens/mix.ts';
import type { SeenFrames } from '../seen.ts';
import type { CellGrid, PhotoSums, Planes } from './cells.ts';
import { cellGrid, cellMiddle, photoSums, pictureAt, unexplained } from './cells.ts';
import type { PlaneCells } from './plane-fit.ts';
import type { MendPhotoReading } from './terms.ts';
import { refuse } from './terms.ts';

/** Spreads beyond the plan to try, shares of the pitch. */
export const SPREADS = [0, 0.3, 0.6] as const;
/** So many places of the picture count as one sample: neighbours are alike (our own value). */
export const ALIKE = 10;
/** Cells with less pattern than this, a standard deviation of brightness, are plain. */
export const PLAIN = 0.012;
/** A cell shows its view when it is this much surer than an even guess, nats. */
const TELLS = 0.7;

export interface Looked {
  readonly cells: PlaneCells;
  readonly grid: CellGrid;
  /** Mean square that the best step of u leaves unexplained, for each of SPREADS. */
  readonly least: readonly Float32Array[];
  readonly pattern: Float32Array;
  /** Of the photo. */
  readonly sums: PhotoSums;
}

/** For each spread, the picture at each step of u. */
export const candidatesOf = (frames: SeenFrames, blur: Blur): Planes[][] => {
  const steps = Math.max(24, Math.min(48, 2 * frames.slots.length));
  return SPREADS.map((more) => {
    const wider: Blur = { spot: Math.hypot(blur.spot, more), dot: blur.dot };
    return Array.from({ length: steps }, (_, k) => pictureAt(frames, (k + 0.5) / steps, wider));
  });
};

/** Standard deviation of brightness in each cell. */
export const patternOf = (photo: Planes, window: number) => {
  const grid = cellGrid(photo.width, photo.height, window, Math.ceil(window / 2));
  const sums = photoSums(photo, grid);
  const pattern = Float32Array.from({ length: grid.columns * grid.rows }, (_, i) => {
    const spread = sums.spread.reduce((sum, one) => sum + one[i]!, 0);
    return Math.sqrt(Math.max(0, spread) / (3 * window * window));
  });
  return { sums, pattern };
};

/** A picture with a smaller share of patterned cells cannot be read. */
export const PATTERNED = 0.15;
export const patterned = (pattern: Float32Array): number[] =>
  Array.from(pattern.keys()).filter((i) => pattern[i]! > PLAIN);

export const look = (
  photo: Planes,
  pictures: readonly (readonly Planes[])[],
  window: number,
  lying: boolean,
): Looked => {
  const { width, height } = photo;
  const { sums, pattern } = patternOf(photo, window);
  const { grid } = sums;
  const count = grid.columns * grid.rows;
  const steps = pictures[0]!.length;
  const left = pictures.map((candidates) => candidates.map((one) => unexplained(sums, one)));
  const least = left.map((each) =>
    Float32Array.from({ length: count }, (_, i) => Math.min(...each.map((one) => one[i]!))),
  );
  const samples = (window * window) / ALIKE;
  const likely = new Float32Array(count * steps);
  for (let i = 0; i < count; i += 1) {
    // Each step at the spread that suits it best.
    const best = Math.min(...least.map((one) => one[i]!));
    let whole = 0;
    for (let k = 0; k < steps; k += 1) {
      let most = 0;
      for (const each of left) most = Math.max(most, (best / each[k]![i]!) ** (samples / 2));
      likely[i * steps + k] = most;
      whole += most;
    }
    for (let k = 0; k < steps; k += 1) likely[i * steps + k]! /= whole;
  }
  const [across, along] = [new Float32Array(count), new Float32Array(count)];
  for (let i = 0; i < count; i += 1) {
    const x = cellMiddle(i % grid.columns, window, grid.step, width);
    const y = cellMiddle(Math.floor(i / grid.columns), window, grid.step, height);
    [across[i], along[i]] = lying ? [y, x] : [x, y];
  }
  const overlap = (window / grid.step) ** 2;
  return { cells: { across, along, likely, steps, overlap }, grid, least, pattern, sums };
};

/** How much surer a cell is than an even guess, nats. */
const sureness = ({ likely, steps }: PlaneCells, cell: number): number => {
  let sum = Math.log(steps);
  for (let k = 0; k < steps; k += 1) {
    const p = likely[cell * steps + k]!;
    if (p > 0) sum += p * Math.log(p);
  }
  return sum;
};

/** A reason to give up before a plane is searched; undefined when there is none. */
export const tells = ({ cells, least, pattern, grid }: Looked): MendPhotoReading | undefined => {
  const seen = patterned(pattern);
  // Share of the pattern that even the best view does not explain.
  const left = seen
    .map((i) => Math.min(...least.map((one) => one[i]!)) / (3 * pattern[i]! ** 2))
    .sort((a, b) => a - b);
  if (left[left.length >> 1]! > 0.85) return refuse('no-match');
  const telling = seen.filter((i) => sureness(cells, i) > TELLS);
  return telling.length < Math.max(8, 0.04 * grid.columns * grid.rows)
    ? refuse('alike')
    : undefined;
};
