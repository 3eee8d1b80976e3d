/** Matches a pair of frames both ways and gives the result in shares of the frame, in its own orientation. */
import type { MatchField } from './match.ts';
import { PLACE_STEP_PX, matchPyramids } from './match.ts';
import type { Plane } from './plane.ts';
import { trusted } from './trust.ts';

/**
 * How far each place of one frame has moved in the next. Row-major over the frame as it is seen, columns × rows
 * places; NaN where the match is not trusted.
 */
export interface PairMotion {
  readonly columns: number;
  readonly rows: number;
  /** Size of a place as shares of the frame’s width and height. Place 0 begins at the frame’s corner. */
  readonly placeWidth: number;
  readonly placeHeight: number;
  /** Across the ribs, as a share of the frame's size across them; right (upright) and down are positive. */
  readonly shift: Float32Array<ArrayBuffer>;
  /** Along the ribs, in the same unit as `shift`. */
  readonly rise: Float32Array<ArrayBuffer>;
}

/**
 * @param from pyramid of the first frame, finest first.
 * @param to pyramid of the second. `downTo` is the level to end with.
 */
export function* matchPair(
  from: readonly Plane[],
  to: readonly Plane[],
  { ribs, downTo }: { readonly ribs: 'upright' | 'lying'; readonly downTo: number },
): Generator<undefined, PairMotion> {
  const there = yield* matchPyramids(from, to, downTo);
  const back = yield* matchPyramids(to, from, downTo);
  return motionOf(there, trusted(there, back), from[downTo]!, ribs);
}

export const motionOf = (
  field: MatchField,
  sure: Uint8Array,
  plane: Plane,
  ribs: 'upright' | 'lying',
): PairMotion => {
  const shift = new Float32Array(sure.length).fill(NaN);
  const rise = new Float32Array(sure.length).fill(NaN);
  const { columns, rows } = field;
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      if (sure[at] !== 1) continue;
      // Under lying ribs the planes are transposed, so that across the ribs is left to right.
      const to = ribs === 'upright' ? at : column * rows + row;
      shift[to] = field.dx[at]! / plane.width;
      rise[to] = field.dy[at]! / plane.width;
    }
  const places = [PLACE_STEP_PX / plane.width, PLACE_STEP_PX / plane.height] as const;
  return ribs === 'upright'
    ? { columns, rows, placeWidth: places[0], placeHeight: places[1], shift, rise }
    : { columns: rows, rows: columns, placeWidth: places[1], placeHeight: places[0], shift, rise };
};
