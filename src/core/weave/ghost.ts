/**
 * Ghost trimming: what other slots will lend a picture through the lens is taken from it beforehand,
 * in linear light.
 *
 * Number the places across the print, N to a rib. An eye that means to see place i sees
 * (D_i + c/2 (D_{i−r} + D_{i+r})) / (1 + c): its own dots and a share c of those r places to either
 * side, in the next rib where they lie beyond its edge. The sum K = 1 + c/2 (E^r + E^−r) has an exact
 * inverse: 1 / (1 + c cos θ) is the Poisson kernel, so its taps are a^|d| / √(1 − c²) at d r places,
 * a = (√(1 − c²) − 1) / c. For two pictures by turns they sum to D = (I − c J) / (1 − c²).
 */
import { LINEAR_MAX } from '../colour/srgb.ts';
import type { FrameSlice, SliceStack } from './band.ts';
import type { Ribs } from './sheet-spec.ts';

/** Strongest leak that can be trimmed: beyond it little contrast would be left. */
export const MOST_LEAK = 0.45;

export interface GhostTrim {
  /** c: light of the two other places, together, for each unit of a place's own. 0 … 0.45. */
  readonly leak: number;
  /** r: how many places away the other pictures lie, 1 or more. */
  readonly reachSlots: number;
  /** Light b laid under every picture first, as b + (1 − b) I: 0 none; b = c is the least that never clips. */
  readonly lift: number;
}

/** Samples cut off at black and at white, of how many. */
export interface Clipped {
  low: number;
  high: number;
  samples: number;
}

/** Taps smaller than this change no 16-bit sample. */
const LEAST_TAP = 2 ** -18;

/**
 * Taps of the inverse at 0, 1, 2 … times r places to either side. Over both sides they sum to
 * 1 / (1 + c). Throws a RangeError that names the field.
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

/** Ribs to either side whose pictures a trimmed sample depends on. */
export const ribsReached = ({ leak, reachSlots }: GhostTrim, viewSlots: number): number =>
  Math.ceil(((inverseTaps(leak).length - 1) * reachSlots) / viewSlots);

/** A sum over places: `weights[d]` for those d × `reachSlots` to either side, and an even light. */
interface PlaceSum {
  readonly weights: readonly number[];
  readonly reachSlots: number;
  readonly light: number;
}

/** Where one tap reads: which slice, how many ribs away, and how much of it. */
interface Tap {
  readonly frame: number;
  readonly ribs: number;
  readonly weight: number;
}

/** The taps of a view slot. Place m under a rib shows view N − 1 − m (relation 3). */
const tapsOf = (slots: readonly number[], slot: number, { weights, reachSlots }: PlaceSum): Tap[] =>
  Array.from({ length: 2 * weights.length - 1 }, (_, i) => {
    const step = i - weights.length + 1;
    const place = slots.length - 1 - slot + step * reachSlots;
    const ribs = Math.floor(place / slots.length);
    return {
      frame: slots[slots.length - 1 - (place - ribs * slots.length)] as number,
      ribs,
      weight: weights[Math.abs(step)] as number,
    };
  });

/** Reads a row of a slice so many ribs away; beyond the print its outermost rib goes on. */
type RowReader = (tap: Tap) => { readonly from: Uint16Array; readonly at: number };

/** Ribs lie across the rows: each row is copied once with room beside it. */
const besideReader = (frames: readonly FrameSlice[], columns: number, reach: number) => {
  const wide = frames.map(() => new Uint16Array((columns + 2 * reach) * 3));
  return (row: number): RowReader => {
    frames.forEach(({ pixels }, frame) => {
      const line = wide[frame] as Uint16Array;
      const own = pixels.subarray(row * columns * 3, (row + 1) * columns * 3);
      line.set(own, reach * 3);
      for (let rib = 0; rib < reach; rib += 1) {
        line.set(own.subarray(0, 3), rib * 3);
        line.set(own.subarray(-3), (reach + columns + rib) * 3);
      }
    });
    return ({ frame, ribs }) => ({ from: wide[frame] as Uint16Array, at: (reach + ribs) * 3 });
  };
};

/** Ribs lie along the rows, one rib a row. */
const belowReader =
  (frames: readonly FrameSlice[], columns: number, rows: number) =>
  (row: number): RowReader =>
  ({ frame, ribs }) => ({
    from: (frames[frame] as FrameSlice).pixels,
    at: Math.min(rows - 1, Math.max(0, row + ribs)) * columns * 3,
  });

const sumTaps = (taps: readonly Tap[], read: RowReader, light: number, sum: Float32Array) => {
  sum.fill(light);
  for (const tap of taps) {
    const { from, at } = read(tap);
    const { weight } = tap;
    for (let i = 0; i < sum.length; i += 1)
      sum[i] = (sum[i] as number) + (from[at + i] as number) * weight;
  }
};

/** A difference smaller than half the darkest 8-bit step shows on no print. */
const SHOWS = 10;

/** Rounds a row of light into place, cuts it off at black and white, and counts what was cut. */
const settle = (row: Float32Array, out: Uint16Array, base: number, clipped: Clipped) => {
  for (let i = 0; i < row.length; i += 1) {
    const light = row[i] as number;
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

/** @returns each different slice once, and what was cut off, by slice. */
const sumPlaces = (stack: SliceStack, ribs: Ribs, sum: PlaceSum) => {
  const [shape] = stack.frames;
  if (shape === undefined) throw new RangeError('frames: expected at least one, received none');
  const { columns } = shape;
  const rowLength = columns * 3;
  const rows = shape.pixels.length / rowLength;
  const count = stack.slots.length;
  const recipes = new Map(
    stack.slots.map((_, slot) => {
      const taps = tapsOf(stack.slots, slot, sum);
      return [JSON.stringify(taps), taps] as const;
    }),
  );
  const made = [...recipes].map(([key, taps]) => ({
    key,
    taps,
    pixels: new Uint16Array(shape.pixels.length),
    clipped: { low: 0, high: 0, samples: 0 },
  }));
  const reach = Math.ceil(((sum.weights.length - 1) * sum.reachSlots) / count);
  const readRow =
    ribs === 'upright'
      ? besideReader(stack.frames, columns, reach)
      : belowReader(stack.frames, columns, rows);
  const line = new Float32Array(rowLength);
  for (let row = 0; row < rows; row += 1) {
    const read = readRow(row);
    for (const { taps, pixels, clipped } of made) {
      sumTaps(taps, read, sum.light, line);
      settle(line, pixels, row * rowLength, clipped);
    }
  }
  const keys = made.map(({ key }) => key);
  return {
    stack: {
      ...stack,
      frames: made.map(({ pixels }): FrameSlice => ({ ...shape, pixels })),
      slots: stack.slots.map((_, slot) =>
        keys.indexOf(JSON.stringify(tapsOf(stack.slots, slot, sum))),
      ),
    },
    clipped: made.map(({ clipped }): Clipped => clipped),
  };
};

/**
 * Trims every slot's picture of what the others will lend it. Slices of lying ribs must reach
 * `ribsReached` rows beyond the rows that are wanted, where the frame does.
 * @returns the slices, each different one once, and what was cut off, by slice.
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
 * What an eye then sees of each slot, by the model above: plain white comes out at 1 / (1 + c) of the
 * paper's. Slices as `trimSlices` wants them.
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
