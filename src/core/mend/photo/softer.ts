/**
 * Places of a photographed print that are softer than the rest, as over a pocket of air. The plane says which u each
 * place shows, so only the spread is open: a round group of cells is softer where one wider spread explains all of it
 * better than the print's own does, by the ratio of their likelihoods.
 */
import type { Blur } from '../../lens/mix.ts';
import { mix } from '../../lens/mix.ts';
import type { SeenFrames } from '../seen.ts';
import type { CellGrid, Planes } from './cells.ts';
import { pictureOfPlaces, unexplained } from './cells.ts';
import type { Looked } from './look.ts';
import { ALIKE, PLAIN } from './look.ts';
import type { Plane } from './plane-fit.ts';

/** Spreads beyond the plan to compare, shares of the pitch; between them by parabolas. */
const LADDER = [0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9, 1.1] as const;
/** The print’s own spread is found to this. */
const FINE = 0.03;
/** A place counts as softer from this much more spread on (our own value). */
const MORE = 0.12;
/** Radii of the groups, in cells. */
const RADII = [2, 3, 4] as const;
/** Least share of a group’s cells that have a pattern (our own value). */
const PATTERNED = 0.45;
/** Natural log of the likelihood ratio from which on a group is softer (our own value, measured). */
export const SOFTER = 10;
/** Places are told apart to this share of the pitch in the expected picture. */
const STEPS = 96;

/** What is needed of the photo and of what was woven. */
export interface SoftAsked {
  readonly looked: Pick<Looked, 'sums' | 'grid' | 'pattern'>;
  readonly plane: Plane;
  readonly frames: SeenFrames;
  readonly blur: Blur;
}

/** The picture that the print would show under its plane with this blur. */
const expected = (plane: Plane, frames: SeenFrames, blur: Blur): Planes => {
  const shares = Array.from({ length: STEPS }, (_, k) =>
    mix((k + 0.5) / STEPS, frames.slots.length, blur),
  );
  return pictureOfPlaces(frames, (across, along) => {
    const u = plane.middle + plane.across * across + plane.along * along;
    return shares[Math.min(STEPS - 1, Math.floor((u - Math.floor(u)) * STEPS))]!;
  });
};

/** Weights of three neighbouring rungs of the ladder for a spread between them (Lagrange). */
const parabola = (spread: number): readonly (readonly [rung: number, weight: number])[] => {
  let middle = 1;
  for (let k = 1; k < LADDER.length - 1; k += 1)
    if (Math.abs(LADDER[k]! - spread) < Math.abs(LADDER[middle]! - spread)) middle = k;
  const rungs = [middle - 1, middle, middle + 1];
  return rungs.map((rung) => {
    const others = rungs.filter((one) => one !== rung);
    const weight = others.reduce(
      (product, one) => (product * (spread - LADDER[one]!)) / (LADDER[rung]! - LADDER[one]!),
      1,
    );
    return [rung, weight] as const;
  });
};

/** The spread that explains all cells together best, and how well it explains each. */
const ownSpread = (logs: readonly Float32Array[], cells: readonly number[]) => {
  const at = (spread: number) => {
    const weights = parabola(spread);
    return (cell: number) =>
      weights.reduce((sum, [rung, weight]) => sum + weight * logs[rung]![cell]!, 0);
  };
  let [least, spread] = [Infinity, 0];
  for (let tried = 0; tried <= LADDER.at(-1)!; tried += FINE) {
    const of = at(tried);
    const sum = cells.reduce((total, cell) => total + of(cell), 0);
    if (sum < least) [least, spread] = [sum, tried];
  }
  return { spread, of: at(spread) };
};

/** Cells within a radius of each cell: their steps across and down. */
const disc = (radius: number): (readonly [x: number, y: number])[] => {
  const reach = Array.from({ length: 2 * radius + 1 }, (_, i) => i - radius);
  return reach
    .flatMap((y) => reach.map((x) => [x, y] as const))
    .filter(([x, y]) => x * x + y * y <= radius * radius + 0.5);
};

/** Sums of several maps over a disc around each cell, without cells that are plain, and how many were not. */
const overDiscs = (
  maps: readonly Float32Array[],
  patterned: Uint8Array,
  { columns, rows }: CellGrid,
  steps: readonly (readonly [x: number, y: number])[],
) => {
  const sums = maps.map(() => new Float32Array(columns * rows));
  const counts = new Uint16Array(columns * rows);
  for (let y = 0; y < rows; y += 1)
    for (let x = 0; x < columns; x += 1)
      for (const [right, down] of steps) {
        const [i, j] = [x + right, y + down];
        if (i < 0 || j < 0 || i >= columns || j >= rows || patterned[j * columns + i] === 0)
          continue;
        counts[y * columns + x]! += 1;
        maps.forEach((map, k) => (sums[k]![y * columns + x]! += map[j * columns + i]!));
      }
  return { sums, counts };
};

/**
 * For each cell, by how many nats one wider spread explains the best of the discs around it better than the print’s
 * own spread does; below 0 where none does, NaN where too little has a pattern.
 */
export const softerBy = ({ looked, plane, frames, blur }: SoftAsked): Float32Array => {
  const { sums, grid, pattern } = looked;
  const logs = LADDER.map((more) =>
    unexplained(sums, expected(plane, frames, { ...blur, spot: Math.hypot(blur.spot, more) })).map(
      Math.log,
    ),
  );
  const patterned = Uint8Array.from(pattern, (one) => (one > PLAIN ? 1 : 0));
  const cells = Array.from(patterned.keys()).filter((cell) => patterned[cell] === 1);
  const own = ownSpread(logs, cells);
  const gains = logs
    .filter((_, rung) => LADDER[rung]! > own.spread + MORE)
    .map((log) => log.map((left, cell) => own.of(cell) - left));
  return best(gains, patterned, grid);
};

/** Of one cell, for a ratio of e: half of its samples, without those that it shares with its neighbours. */
const natsOf = ({ step }: CellGrid): number => step ** 2 / ALIKE / 2;

const best = (
  gains: readonly Float32Array[],
  patterned: Uint8Array,
  grid: CellGrid,
): Float32Array => {
  const out = new Float32Array(grid.columns * grid.rows).fill(NaN);
  const nats = natsOf(grid);
  for (const radius of RADII) {
    const steps = disc(radius);
    const { sums, counts } = overDiscs(gains, patterned, grid, steps);
    for (let cell = 0; cell < out.length; cell += 1) {
      if (counts[cell]! < PATTERNED * steps.length) continue;
      for (const sum of sums) if (!(sum[cell]! * nats <= out[cell]!)) out[cell] = sum[cell]! * nats;
    }
  }
  return out;
};
