/**
 * One pitch, one skew and one place for the whole picture: the u = middle + across × x + along × y, wrapped to a
 * zone, that agrees best with the cells. A cell that contradicts (a bubble, a reflection) costs no more than a fixed
 * stake, so it cannot pull the others along.
 */

export interface PlaneCells {
  /** Middles of the cells, −½ … ½ across and along the ribs. */
  readonly across: Float32Array;
  readonly along: Float32Array;
  /** Likelihood of each step of u in each cell, index cell × steps + step; each cell sums to 1. */
  readonly likely: Float32Array;
  readonly steps: number;
  /** How many cells cover one place of the picture: overlapping cells repeat each other. */
  readonly overlap: number;
}

export interface Plane {
  readonly middle: number;
  readonly across: number;
  readonly along: number;
}

export interface PlaneFit extends Plane {
  /** Log likelihood above that of no plane, divided by the overlap. */
  readonly score: number;
  /** Standard deviations of middle, across and along. */
  readonly sigmas: readonly [middle: number, across: number, along: number];
  /** Another plane that fits about as well. */
  readonly rival?: Plane;
}

/** Share of stray cells to allow for. */
const STRAY = 0.25;
/** A rival less likely than the best by this, in nats, is out: e⁻⁸. */
const CLEARLY_WORSE = 8;
/** Bands across or along to search, and the step of the search. */
const REACH = 8;
const STEP = 0.25;

/** Log likelihood of each step against an even guess, with stray cells allowed for. */
const stakes = ({ likely, steps }: PlaneCells): Float32Array =>
  likely.map((p) => Math.log((1 - STRAY) * p * steps + STRAY));

type Score = (middle: number, across: number, along: number, skip?: number) => number;

/** Interpolates linearly between steps. @param blocks block of each cell, so that one can be left out. */
const scorer = (cells: PlaneCells, blocks: Uint8Array): Score => {
  const stake = stakes(cells);
  const { across, along, steps, overlap } = cells;
  return (middle, b, c, skip = 255) => {
    let sum = 0;
    for (let i = 0; i < across.length; i += 1) {
      if (blocks[i] === skip) continue;
      const u = (middle + b * across[i]! + c * along[i]!) * steps - 0.5;
      const low = Math.floor(u);
      const part = u - low;
      const at = ((low % steps) + steps) % steps;
      const next = at + 1 === steps ? 0 : at + 1;
      sum += stake[i * steps + at]! * (1 - part) + stake[i * steps + next]! * part;
    }
    return sum / overlap;
  };
};

/** Strongest planes of a grid over (across, along), local maxima only. */
const search = (cells: PlaneCells, most: number): Plane[] => {
  const stake = stakes(cells);
  const { across, along, steps } = cells;
  const each = Math.round(REACH / STEP);
  const side = 2 * each + 1;
  const best = new Float32Array(side * side).fill(-Infinity);
  const middle = new Float32Array(side * side);
  const sums = new Float64Array(steps);
  for (let bi = 0; bi < side; bi += 1)
    for (let ci = 0; ci < side; ci += 1) {
      const [b, c] = [(bi - each) * STEP, (ci - each) * STEP];
      sums.fill(0);
      // A third of the cells is enough to find where to climb.
      for (let i = (bi + ci) % 3; i < across.length; i += 3) {
        const shift = Math.round((b * across[i]! + c * along[i]!) * steps);
        let at = ((shift % steps) + steps) % steps;
        for (let k = 0; k < steps; k += 1) {
          sums[k]! += stake[i * steps + at]!;
          at = at + 1 === steps ? 0 : at + 1;
        }
      }
      for (let k = 0; k < steps; k += 1)
        if (sums[k]! > best[bi * side + ci]!) {
          best[bi * side + ci] = sums[k]!;
          middle[bi * side + ci] = (k + 0.5) / steps;
        }
    }
  const at = (bi: number, ci: number) =>
    bi < 0 || ci < 0 || bi >= side || ci >= side ? -Infinity : best[bi * side + ci]!;
  const peaks: { plane: Plane; height: number }[] = [];
  for (let bi = 0; bi < side; bi += 1)
    for (let ci = 0; ci < side; ci += 1) {
      const here = at(bi, ci);
      const beaten = [-1, 0, 1].some((db) => [-1, 0, 1].some((dc) => at(bi + db, ci + dc) > here));
      if (!beaten)
        peaks.push({
          height: here,
          plane: {
            middle: middle[bi * side + ci]!,
            across: (bi - each) * STEP,
            along: (ci - each) * STEP,
          },
        });
    }
  return peaks
    .sort((a, b) => b.height - a.height)
    .slice(0, most)
    .map(({ plane }) => plane);
};

/** Climbs from a plane to the nearest maximum, in steps that halve. */
const climb = (score: Score, from: Plane, skip = 255): Plane & { readonly score: number } => {
  let here = [from.middle, from.across, from.along] as [number, number, number];
  let height = score(...here, skip);
  for (let step = 0.125; step > 0.0008; step /= 2)
    for (let moved = true; moved;) {
      moved = false;
      for (let axis = 0; axis < 3; axis += 1)
        for (const side of [-step, step]) {
          const there = [...here] as [number, number, number];
          there[axis]! += axis === 0 ? side / 2 : side;
          const higher = score(...there, skip);
          if (higher > height + 1e-9) [here, height, moved] = [there, higher, true];
        }
    }
  return { middle: here[0], across: here[1], along: here[2], score: height };
};

const wrapped = (turns: number) => turns - Math.round(turns);
/** True for two planes that are one answer. */
const same = (a: Plane, b: Plane): boolean =>
  Math.abs(a.across - b.across) < 0.5 &&
  Math.abs(a.along - b.along) < 0.5 &&
  Math.abs(wrapped(a.middle - b.middle)) < 0.2;

/** The block of each cell, out of four by four over the picture. */
const BLOCKS = 4;
const blocksOf = ({ across, along }: PlaneCells): Uint8Array =>
  Uint8Array.from(across, (x, i) => {
    const [column, row] = [x, along[i]!].map((at) =>
      Math.min(BLOCKS - 1, Math.max(0, Math.floor((at + 0.5) * BLOCKS))),
    ) as [number, number];
    return row * BLOCKS + column;
  });

/** Standard deviation of a slope, in view widths, that the steps of views leave open (our own value, measured). */
const STAIRS = 0.3;

/** Jackknife over the blocks: errors are alike in neighbouring cells. */
const sigmasOf = (score: Score, best: Plane, viewSlots: number): PlaneFit['sigmas'] => {
  const count = BLOCKS * BLOCKS;
  const without = Array.from({ length: count }, (_, block) => climb(score, best, block));
  const spread = (of: (plane: Plane) => number) => {
    const mean = without.reduce((sum, one) => sum + of(one), 0) / count;
    return Math.sqrt(
      (without.reduce((sum, one) => sum + (of(one) - mean) ** 2, 0) * (count - 1)) / count,
    );
  };
  // Views are steps: within one the picture stays the same, whatever u is.
  const step = 1 / viewSlots;
  return [
    Math.hypot(
      spread(({ middle }) => middle),
      0.15 * step,
    ),
    Math.hypot(
      spread(({ across }) => across),
      STAIRS * step,
    ),
    Math.hypot(
      spread(({ along }) => along),
      STAIRS * step,
    ),
  ];
};

/** The best plane; undefined without cells. @param viewSlots view slots of the sheet. */
export const fitPlane = (cells: PlaneCells, viewSlots: number): PlaneFit | undefined => {
  if (cells.across.length === 0) return undefined;
  const score = scorer(cells, blocksOf(cells));
  const tops = search(cells, 8)
    .map((plane) => climb(score, plane))
    .sort((a, b) => b.score - a.score);
  const best = tops[0];
  if (best === undefined) return undefined;
  const rival = tops.find((top) => !same(top, best) && top.score > best.score - CLEARLY_WORSE);
  return {
    ...best,
    middle: best.middle - Math.floor(best.middle),
    sigmas: sigmasOf(score, best, viewSlots),
    ...(rival === undefined ? {} : { rival }),
  };
};
