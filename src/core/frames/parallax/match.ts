/**
 * Matches one picture to the next on a grid of places, from coarse to fine over a pyramid. Each level takes the best
 * whole-pixel match by zero-mean normalised cross-correlation among the coarser level’s results for the place and its
 * neighbours. Gauss–Newton steps with the window’s own gradients then refine it below a pixel (inverse compositional
 * alignment, Baker & Matthews 2004), whatever the gain and offset of brightness. Both are kernels.
 */
import { kernels, layRooms, roomFloats, roomWords } from '../../numeric/kernels.ts';
import type { RowSpan } from './laid-rows.ts';
import { bytesOf, layPlaneRows, middles, pitchOf } from './laid-rows.ts';
import type { Plane } from './plane.ts';
import { laidWeights } from './window.ts';

/** Pixels between places of the grid, on each level. */
export const PLACE_STEP_PX = 8;
/** Pixels searched to each side on the coarsest level, across and along. */
const COARSE_ACROSS = 5;
const COARSE_ALONG = 1;
/** A rounded start may be one pixel off: so often the best is looked for beside what was best. */
const CLIMBS = 3;
/** Rows of places matched at once: some 10 ms. */
const ROWS_AT_ONCE = 16;

/** Rows that a window reaches above and below its middle, interpolated or with its slopes. */
const REACH_PX = 9;
/** As far as climbing and six steps of a pixel may lead from a start. */
const LED_PX = 10;

/** Where each place of one picture lies in the other. Arrays: columns × rows, row-major. */
export interface MatchField {
  readonly columns: number;
  readonly rows: number;
  /** Displacement in pixels of the level; right and down are positive. */
  readonly dx: Float32Array;
  readonly dy: Float32Array;
  /** Correlation of the matched windows, −1 … 1. */
  readonly likeness: Float32Array;
  /** Error of dx to expect from the residual, pixels; Infinity where there is no texture. */
  readonly unsure: Float32Array;
}

export const placesOver = (length: number): number =>
  Math.max(1, Math.floor(length / PLACE_STEP_PX));
/** The middle of place `index`, in whole pixels. */
export const placeAt = (index: number): number => index * PLACE_STEP_PX + (PLACE_STEP_PX >> 1);

const emptyField = (plane: Plane): MatchField => {
  const columns = placesOver(plane.width);
  const rows = placesOver(plane.height);
  const array = () => new Float32Array(columns * rows);
  return { columns, rows, dx: array(), dy: array(), likeness: array(), unsure: array() };
};

/** What is tried at every place of the coarsest level, right and down; no motion first, for places without texture. */
const everyStart: number[] = [0, 0];
for (let dy = -COARSE_ALONG; dy <= COARSE_ALONG; dy += 1)
  for (let dx = -COARSE_ACROSS; dx <= COARSE_ACROSS; dx += 1)
    if (dx !== 0 || dy !== 0) everyStart.push(dx, dy);
/** Displacements tried at a place of other levels: the coarser level’s at nine places, and none. */
const STARTS_AT_MOST = 10;

/** A band of rows of places, as far as they can have moved up and down. */
interface Band {
  readonly first: number;
  /** One beyond the last. */
  readonly end: number;
  readonly least: number;
  readonly most: number;
}

const bandOf = (first: number, end: number, coarser: MatchField | undefined): Band => {
  let [least, most] = [-COARSE_ALONG, COARSE_ALONG];
  if (coarser !== undefined) {
    const from = Math.max(0, (first >> 1) - 1) * coarser.columns;
    const to = Math.min(coarser.rows, ((end - 1) >> 1) + 2) * coarser.columns;
    for (let at = from; at < to; at += 1) {
      least = Math.min(least, Math.floor(2 * coarser.dy[at]!));
      most = Math.max(most, Math.ceil(2 * coarser.dy[at]!));
    }
  }
  return { first, end, least, most };
};

/** The rows of the first picture that a band of places needs. */
const rowsOfFirst = ({ first, end }: Band): RowSpan => ({
  first: placeAt(first) - REACH_PX,
  last: placeAt(end - 1) + REACH_PX,
});

/** Between which rows of the second picture the middles of a band's windows are taken. */
const middlesOf = ({ first, end, least, most }: Band, height: number): RowSpan => {
  const [top, foot] = middles(height);
  const within = (row: number) => Math.max(top, Math.min(foot, row));
  return {
    first: within(placeAt(first) + least - LED_PX),
    last: within(placeAt(end - 1) + most + LED_PX),
  };
};

/** The numbers of one level, and the level above. */
interface Level {
  readonly from: Plane;
  readonly to: Plane;
  readonly coarser: MatchField | undefined;
  readonly field: MatchField;
}

/** Lays out all that a band needs. @returns addresses. */
const layBand = ({ from, to, coarser, field }: Level, band: Band) => {
  const { width, height } = from;
  const entries = field.columns * (coarser === undefined ? everyStart.length / 2 : STARTS_AT_MOST);
  const above = (coarser?.dx.length ?? 0) * 4;
  const rows = rowsOfFirst(band);
  const held = middlesOf(band, height);
  const reached = { first: held.first - REACH_PX, last: held.last + REACH_PX };
  const [one, two, pictures, weights, across, along, start, list, out, scratch] = layRooms(
    bytesOf(width, rows),
    bytesOf(width, reached),
    32,
    laidWeights.byteLength,
    above,
    above,
    (field.columns + 1) * 4,
    entries * 8,
    field.columns * 16,
    4096,
  );
  const [left, right] = middles(width);
  roomWords(pictures, 8).set([
    layPlaneRows(from, from.data, rows, one),
    layPlaneRows(to, to.data, reached, two),
    pitchOf(width),
    left,
    right,
    held.first,
    held.last,
    weights,
  ]);
  roomFloats(weights, laidWeights.length).set(laidWeights);
  if (coarser !== undefined) {
    roomFloats(across, coarser.dx.length).set(coarser.dx);
    roomFloats(along, coarser.dy.length).set(coarser.dy);
  } else {
    const each = everyStart.length / 2;
    for (let place = 0; place < field.columns; place += 1)
      roomWords(list + 8 * each * place, 2 * each).set(everyStart);
    roomWords(start, field.columns + 1).forEach((_, i, starts) => (starts[i] = each * i));
  }
  return { pictures, across, along, start, list, out, scratch };
};

const matchBand = (level: Level, band: Band): void => {
  const { coarser, field } = level;
  const { columns } = field;
  const { pictures, across, along, start, list, out, scratch } = layBand(level, band);
  const { startsRow, wholeRow, refineRow } = kernels();
  const found = roomFloats(out, 4 * columns);
  for (let row = band.first; row < band.end; row += 1) {
    if (coarser !== undefined)
      startsRow(across, along, coarser.columns, coarser.rows, row >> 1, columns, start, list);
    const climbs = coarser === undefined ? 0 : CLIMBS;
    wholeRow(pictures, placeAt(row), columns, start, list, climbs, out, scratch);
    refineRow(pictures, placeAt(row), columns, out, scratch);
    for (let column = 0, at = row * columns; column < columns; column += 1, at += 1) {
      field.dx[at] = found[4 * column]!;
      field.dy[at] = found[4 * column + 1]!;
      field.likeness[at] = found[4 * column + 2]!;
      field.unsure[at] = found[4 * column + 3]!;
    }
  }
};

/** Matches one level. Yields after some rows of places, so that long work can be stopped. */
function* matchLevel(
  from: Plane,
  to: Plane,
  coarser: MatchField | undefined,
): Generator<undefined, MatchField> {
  const field = emptyField(from);
  for (let first = 0; first < field.rows; first += ROWS_AT_ONCE) {
    const end = Math.min(field.rows, first + ROWS_AT_ONCE);
    matchBand({ from, to, coarser, field }, bandOf(first, end, coarser));
    yield;
  }
  return field;
}

/**
 * Matches whole pyramids, finest level first in each. Yields between rows of places.
 * @param downTo level to end with: 0 is the finest, 1 half its size, …
 * @throws RangeError when no level is given.
 */
export function* matchPyramids(
  from: readonly Plane[],
  to: readonly Plane[],
  downTo = 0,
): Generator<undefined, MatchField> {
  let field: MatchField | undefined;
  for (let level = from.length - 1; level >= downTo; level -= 1)
    field = yield* matchLevel(from[level]!, to[level]!, field);
  if (field === undefined)
    throw new RangeError('from: expected at least one pyramid level, received none');
  return field;
}
