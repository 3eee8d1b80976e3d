/**
 * Ghost removal: takes from each picture in advance the light that other slots will add to it through the lens, in
 * linear light.
 *
 * Number the places across the print, N for each rib. An eye that should see place i sees (D_i + c/2 (D_{i−r} +
 * D_{i+r})) / (1 + c): its own dots and a share c of those r places to each side, in the next rib where they lie
 * beyond its edge. The sum K = 1 + c/2 (E^r + E^−r) has an exact inverse: 1 / (1 + c cos θ) is the Poisson kernel, so
 * its taps are a^|d| / √(1 − c²) at d r places, a = (√(1 − c²) − 1) / c. For two alternating pictures they sum to D =
 * (I − c J) / (1 − c²).
 */
import { LINEAR_MAX } from '../colour/srgb.ts';
import type { FrameSlice, SliceStack } from './band.ts';
import type { Ribs } from './sheet-spec.ts';

/** Strongest leak that can be removed: beyond it little contrast is left. */
export const MOST_LEAK = 0.45;

export interface GhostTrim {
  /** c: light of the two other places together for each unit of a place’s own, 0 … 0.45. */
  readonly leak: number;
  /** r: how many places away the other pictures are, at least 1. */
  readonly reachSlots: number;
  /** b: light added under every picture first, as b + (1 − b) I. 0 for none; b = c is the least that never clips. */
  readonly lift: number;
}

/** Samples clipped at black and at white, and the number of samples. */
export interface Clipped {
  low: number;
  high: number;
  samples: number;
}

/** Smaller taps change no 16-bit sample. */
const LEAST_TAP = 2 ** -18;

/**
 * Taps of the inverse at 0, 1, 2 … times r places to each side; over both sides they sum to 1 / (1 + c).
 * @throws RangeError that names the field.
 */
export const inverseTaps = (leak: number): number[] => {
  if (!(leak >= 0 && leak < 1))
    throw new RangeError(`leak: expected from 0 to below 1, received ${leak}`);
  const root = Math.sqrt(1 - leak ** 2);
  const ratio = leak === 0 ? 0 : (root - 1) / leak;
  const taps: number[] = [1 / root];
  for (let tap = ratio / root; Math.abs(tap) > LEAST_TAP; tap *= ratio) taps.push(tap);
  return taps;
};

/** Ribs to each side that a sample with ghost removal depends on. */
export const ribsReached = ({ leak, reachSlots }: GhostTrim, viewSlots: number): number =>
  Math.ceil(((inverseTaps(leak).length - 1) * reachSlots) / viewSlots);

/** A sum over places: `weights[d]` for those d × `reachSlots` to each side, plus a constant light. */
interface PlaceSum {
  readonly weights: readonly number[];
  readonly reachSlots: number;
  readonly light: number;
}

/** What one tap reads: which slice, and how many ribs away. */
interface Tap {
  readonly frame: number;
  readonly ribs: number;
}

/** What the sum of a slot reads, by step: its own place, and the two at each step to the sides. */
interface Recipe {
  readonly own: Tap;
  readonly pairs: readonly (readonly [Tap, Tap])[];
}

/** The taps of a view slot. Place m under a rib shows view N − 1 − m (relation 3). */
const recipeOf = (
  slots: readonly number[],
  slot: number,
  { weights, reachSlots }: PlaceSum,
): Recipe => {
  const tapAt = (step: number): Tap => {
    const place = slots.length - 1 - slot + step * reachSlots;
    const ribs = Math.floor(place / slots.length);
    return { frame: slots[slots.length - 1 - (place - ribs * slots.length)]!, ribs };
  };
  const steps = Array.from({ length: weights.length - 1 }, (_, i) => i + 1);
  return { own: tapAt(0), pairs: steps.map((step) => [tapAt(-step), tapAt(step)] as const) };
};

/** Samples of all slices in one array, and where the row of a tap begins. */
interface Rows {
  readonly all: Uint16Array;
  at(tap: Tap): number;
}

/** Ribs lie across the rows: copies each row with its outermost ribs repeated beyond the print. */
const rowsBeside = (frames: readonly FrameSlice[], columns: number, reach: number) => {
  const length = (columns + 2 * reach) * 3;
  const all = new Uint16Array(frames.length * length);
  const at = ({ frame, ribs }: Tap) => frame * length + (reach + ribs) * 3;
  return (row: number): Rows => {
    frames.forEach(({ pixels }, frame) => {
      const line = all.subarray(frame * length, (frame + 1) * length);
      const own = pixels.subarray(row * columns * 3, (row + 1) * columns * 3);
      line.set(own, reach * 3);
      for (let rib = 0; rib < reach; rib += 1) {
        line.set(own.subarray(0, 3), rib * 3);
        line.set(own.subarray(-3), (reach + columns + rib) * 3);
      }
    });
    return { all, at };
  };
};

/** Ribs lie along the rows, one rib a row; beyond the print the outermost is repeated. */
const rowsBelow = (frames: readonly FrameSlice[], columns: number, rows: number) => {
  const length = columns * 3;
  const all = new Uint16Array(frames.length * rows * length);
  frames.forEach(({ pixels }, frame) => all.set(pixels, frame * rows * length));
  return (row: number): Rows => ({
    all,
    at: ({ frame, ribs }) => (frame * rows + Math.min(rows - 1, Math.max(0, row + ribs))) * length,
  });
};

/** Takes two pairs a pass: a sum in a register is far cheaper than one in memory. */
const sumRow = (
  { own, pairs }: Recipe,
  { weights, light }: PlaceSum,
  { all, at }: Rows,
  sum: Float32Array,
) => {
  const pairAt = (step: number): readonly [number, number, number] => {
    const [left, right] = pairs[step - 1] ?? [own, own];
    return [weights[step] ?? 0, at(left), at(right)];
  };
  const base = at(own);
  const weight = weights[0]!;
  const [w1, left1, right1] = pairAt(1);
  const [w2, left2, right2] = pairAt(2);
  for (let i = 0; i < sum.length; i += 1)
    sum[i] =
      light +
      all[base + i]! * weight +
      (all[left1 + i]! + all[right1 + i]!) * w1 +
      (all[left2 + i]! + all[right2 + i]!) * w2;
  for (let step = 3; step < weights.length; step += 2) {
    const [wa, leftA, rightA] = pairAt(step);
    const [wb, leftB, rightB] = pairAt(step + 1);
    for (let i = 0; i < sum.length; i += 1)
      sum[i] =
        sum[i]! +
        (all[leftA + i]! + all[rightA + i]!) * wa +
        (all[leftB + i]! + all[rightB + i]!) * wb;
  }
};

/** A difference below half the darkest 8-bit step is not visible on a print. */
const SHOWS = 10;

/** Rounds a row of light, clips it at black and white, and counts the clipped samples. */
const settle = (row: Float32Array, out: Uint16Array, base: number, clipped: Clipped) => {
  for (let i = 0; i < row.length; i += 1) {
    const light = row[i]!;
    if (light < 0) {
      if (light < -SHOWS) clipped.low += 1;
      out[base + i] = 0;
    } else if (light > LINEAR_MAX) {
      if (light > LINEAR_MAX + SHOWS) clipped.high += 1;
      out[base + i] = LINEAR_MAX;
    } else out[base + i] = light + 0.5;
  }
  clipped.samples += row.length;
};

/** @returns each distinct slice once, and what was clipped in each. */
const sumPlaces = (stack: SliceStack, ribs: Ribs, sum: PlaceSum) => {
  const [shape] = stack.frames;
  if (shape === undefined) throw new RangeError('frames: expected at least one, received none');
  const { columns } = shape;
  const rowLength = columns * 3;
  const rows = shape.pixels.length / rowLength;
  const count = stack.slots.length;
  const recipes = stack.slots.map((_, slot) => recipeOf(stack.slots, slot, sum));
  const keys = recipes.map((recipe) => JSON.stringify(recipe));
  const distinct = [...new Set(keys)];
  const made = distinct.map((key) => ({
    recipe: recipes[keys.indexOf(key)]!,
    pixels: new Uint16Array(shape.pixels.length),
    clipped: { low: 0, high: 0, samples: 0 },
  }));
  const reach = Math.ceil(((sum.weights.length - 1) * sum.reachSlots) / count);
  const readRow =
    ribs === 'upright'
      ? rowsBeside(stack.frames, columns, reach)
      : rowsBelow(stack.frames, columns, rows);
  const line = new Float32Array(rowLength);
  for (let row = 0; row < rows; row += 1) {
    const read = readRow(row);
    for (const { recipe, pixels, clipped } of made) {
      sumRow(recipe, sum, read, line);
      settle(line, pixels, row * rowLength, clipped);
    }
  }
  return {
    stack: {
      ...stack,
      frames: made.map(({ pixels }): FrameSlice => ({ ...shape, pixels })),
      slots: keys.map((key) => distinct.indexOf(key)),
    },
    clipped: made.map(({ clipped }): Clipped => clipped),
  };
};

/**
 * Removes from the picture of every slot what the others will add to it. With lying ribs, slices must reach
 * `ribsReached` rows beyond the wanted rows, as far as the frame does.
 * @returns each distinct slice once, and what was clipped in each.
 * @throws RangeError that names the field.
 */
export const trimSlices = (
  stack: SliceStack,
  ribs: Ribs,
  { leak, reachSlots, lift }: GhostTrim,
): { readonly stack: SliceStack; readonly clipped: readonly Clipped[] } =>
  sumPlaces(stack, ribs, {
    weights: inverseTaps(leak).map((tap) => (1 - lift) * tap),
    reachSlots,
    light: (lift * LINEAR_MAX) / (1 + leak),
  });

/**
 * What an eye then sees of each slot, by the model above: plain white becomes 1 / (1 + c) of the paper’s. Needs the
 * slices that `trimSlices` needs.
 */
export const seenSlices = (
  stack: SliceStack,
  ribs: Ribs,
  { leak, reachSlots }: Pick<GhostTrim, 'leak' | 'reachSlots'>,
): SliceStack =>
  sumPlaces(stack, ribs, {
    weights: [1 / (1 + leak), leak / 2 / (1 + leak)],
    reachSlots,
    light: 0,
  }).stack;
