/** Decides which places of a match can be trusted. */
import { medianOf } from '../../numeric/median.ts';
import type { MatchField } from './match.ts';
import { PLACE_STEP_PX, placeAt } from './match.ts';

/** Windows less alike than this do not match (our own value, no source). */
const LEAST_LIKENESS = 0.8;
/** Largest expected error: a twenty-fifth of a pixel. */
const UNSURE_AT_MOST_PX = 0.04;
/** Matching there and back must end this close to where it began. */
const ROUND_TRIP_PX = 0.25;
/** A crooked camera slide moves all places up or down alike; a place that rises otherwise is a wrong match. */
const RISE_APART_PX = 0.5;
/** A lone place is taken for a chance match; two agreeing neighbours confirm it. */
const NEIGHBOUR_PX = 0.25;
const NEIGHBOURS_AT_LEAST = 2;

const nearestPlace = (px: number, places: number): number =>
  Math.min(places - 1, Math.max(0, Math.round((px - (PLACE_STEP_PX >> 1)) / PLACE_STEP_PX)));

const textured = (field: MatchField, at: number): boolean =>
  field.likeness[at]! >= LEAST_LIKENESS && field.unsure[at]! <= UNSURE_AT_MOST_PX;

const returns = (there: MatchField, back: MatchField, column: number, row: number): boolean => {
  const at = row * there.columns + column;
  const x = placeAt(column) + there.dx[at]!;
  const y = placeAt(row) + there.dy[at]!;
  const met = nearestPlace(y, back.rows) * back.columns + nearestPlace(x, back.columns);
  return Math.abs(back.dx[met]! + there.dx[at]!) <= ROUND_TRIP_PX;
};

const neighboursAgreeing = (field: MatchField, column: number, row: number): number => {
  const own = field.dx[row * field.columns + column]!;
  let agreeing = 0;
  for (let y = Math.max(0, row - 1); y <= Math.min(field.rows - 1, row + 1); y += 1)
    for (let x = Math.max(0, column - 1); x <= Math.min(field.columns - 1, column + 1); x += 1) {
      if (x === column && y === row) continue;
      const at = y * field.columns + x;
      const near = Math.abs(field.dx[at]! - own) <= NEIGHBOUR_PX;
      if (near && field.unsure[at]! <= 2 * UNSURE_AT_MOST_PX) agreeing += 1;
    }
  return agreeing;
};

/** 1 where the match can be trusted, length columns × rows of `there`. */
export const trusted = (there: MatchField, back: MatchField): Uint8Array<ArrayBuffer> => {
  const { columns, rows } = there;
  const sure = new Uint8Array(columns * rows);
  const rises: number[] = [];
  for (let at = 0; at < sure.length; at += 1) if (textured(there, at)) rises.push(there.dy[at]!);
  const rise = medianOf(rises);
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      if (
        textured(there, at) &&
        Math.abs(there.dy[at]! - rise) <= RISE_APART_PX &&
        returns(there, back, column, row) &&
        neighboursAgreeing(there, column, row) >= NEIGHBOURS_AT_LEAST
      )
        sure[at] = 1;
    }
  return sure;
};
