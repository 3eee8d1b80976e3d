/**
 * Measures one disparity for each place from the whole sequence. Cameras on one line move a place by the same slope
 * through all frames, so distant frames measure it more finely than neighbours do (multiple-baseline stereo, Okutomi
 * & Kanade 1993). A small window weights its pixels by how much they resemble the middle one and so stays on the
 * surface of the place (Yoon & Kweon 2006). Of the frames to the left and to the right, the side that fits better
 * decides, since the place may be hidden in the other (Kang, Szeliski & Chai 2001). What was found counts only for the
 * surface that it was found on.
 */
import { placeAt } from './match.ts';
import type { Other } from './others.ts';
import { othersOf } from './others.ts';
import type { FoundSlopes } from './own-surface.ts';
import { isSeenAlong, slopeAround } from './own-surface.ts';
import type { PairMotion } from './pair.ts';
import type { Plane } from './plane.ts';
import { searched } from './search.ts';
import type { Track } from './track.ts';

/** Slopes tried beyond the least and the largest that are known nearby, pixels for an ordinary step. */
const BESIDE_PX = 0.3;
/** Places to each side whose motion may also be that of this place. */
const NEIGHBOURS = 3;

interface Slopes {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array;
}

/** The motion of the pair in ordinary steps, in the orientation of the planes. */
const slopesOf = (
  { columns, rows, shift }: PairMotion,
  ribs: 'upright' | 'lying',
  ofShare: (share: number) => number,
): Slopes => {
  if (ribs === 'upright') return { columns, rows, values: shift.map(ofShare) };
  const values = new Float32Array(shift.length);
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1)
      values[column * rows + row] = ofShare(shift[row * columns + column]!);
  return { columns: rows, rows: columns, values };
};

/** Smallest and largest known slope around a place; undefined where none is known. */
const rangeAround = (
  { columns, rows, values }: Slopes,
  column: number,
  row: number,
): readonly [number, number] | undefined => {
  let [least, most] = [Infinity, -Infinity];
  for (let y = Math.max(0, row - NEIGHBOURS); y <= Math.min(rows - 1, row + NEIGHBOURS); y += 1)
    for (
      let x = Math.max(0, column - NEIGHBOURS);
      x <= Math.min(columns - 1, column + NEIGHBOURS);
      x += 1
    ) {
      const value = values[y * columns + x]!;
      if (value < least) least = value;
      if (value > most) most = value;
    }
  return least <= most ? [least, most] : undefined;
};

export interface SlopeChoices {
  /** The frame measured; the motion is from it to the next. */
  readonly index: number;
  readonly ribs: 'upright' | 'lying';
  readonly track: Track;
}

/** Slopes that are those of the place’s own surface; NaN elsewhere. */
const ownSlopes = (
  plane: Plane,
  others: readonly Other[],
  found: FoundSlopes,
): Float32Array<ArrayBuffer> =>
  Float32Array.from(found.slopes, (slope, at) => {
    if (found.own[at] === 1 && !Number.isNaN(slope)) return slope;
    const [column, row] = [at % found.columns, Math.floor(at / found.columns)];
    const around = slopeAround(found, column, row);
    return !Number.isNaN(around) &&
      isSeenAlong(plane, others, [placeAt(column), placeAt(row)], around)
      ? around
      : NaN;
  });

/** Pixels within which sequence and pair mean the same slope. */
const AGREEING_PX = 0.2;

/**
 * Whether these are frames of one scene from one camera slide, in even light: of the places with texture of their own
 * that the pair knew the sequence must find a third, or a fifth if it nearly always finds what the pair found.
 */
const isExplained = (known: Slopes, { slopes, own }: FoundSlopes): boolean => {
  let [asked, found, agreeing] = [0, 0, 0];
  known.values.forEach((value, at) => {
    if (own[at] !== 1 || Number.isNaN(value)) return;
    asked += 1;
    const slope = slopes[at]!;
    if (Number.isNaN(slope)) return;
    found += 1;
    if (Math.abs(slope - value) <= AGREEING_PX) agreeing += 1;
  });
  return found > 0 && found >= asked / (agreeing >= 0.8 * found ? 5 : 3);
};

/**
 * Measures the motion of a pair again through the whole sequence. Yields between rows of places.
 * @param planes frame `index` and its `framesAsked`, by number, at matching size, transposed for lying ribs.
 * @param pair the result of matching the pair alone, which says where to look.
 * @returns `pair` itself where the sequence does not explain it; else NaN where a place’s own surface shows too little.
 */
export function* motionThrough(
  planes: ReadonlyMap<number, Plane>,
  pair: PairMotion,
  { index, ribs, track }: SlopeChoices,
): Generator<undefined, PairMotion> {
  const plane = planes.get(index)!;
  const step = track.along[index + 1]! - track.along[index]!;
  const slip = track.slip[index + 1]! - track.slip[index]!;
  const known = slopesOf(pair, ribs, (share) => (share * plane.width - slip) / step);
  const sorted = known.values.filter((value) => !Number.isNaN(value)).sort();
  if (sorted.length === 0) return pair;
  const others = othersOf(planes, index, track);
  const whole = [sorted[0]!, sorted[sorted.length - 1]!] as const;
  const found = yield* searched(plane, others, (column, row) => {
    const [least, most] = rangeAround(known, column, row) ?? whole;
    return [least - BESIDE_PX, most + BESIDE_PX];
  });
  if (!isExplained(known, found)) return pair;
  const shift = new Float32Array(pair.shift.length).fill(NaN);
  const rise = new Float32Array(pair.rise.length).fill(NaN);
  const level = (track.rise[index + 1]! - track.rise[index]!) / plane.width;
  ownSlopes(plane, others, found).forEach((slope, at) => {
    if (Number.isNaN(slope)) return;
    const [column, row] = [at % found.columns, Math.floor(at / found.columns)];
    const to = ribs === 'upright' ? at : column * known.rows + row;
    shift[to] = (slope * step + slip) / plane.width;
    const risen = pair.rise[to]!;
    rise[to] = Number.isNaN(risen) ? level : risen;
  });
  return { ...pair, shift, rise };
}
