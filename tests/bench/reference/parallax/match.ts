/**
 * Matches one picture to the next on a grid of places, from coarse to fine over a pyramid. Each level takes the best
 * whole-pixel match by zero-mean normalised cross-correlation among the coarser level’s results for the place and its
 * neighbours. Gauss–Newton steps with the window’s own gradients then refine it below a pixel (inverse compositional
 * alignment, Baker & Matthews 2004), whatever the gain and offset of brightness.
 */
import type { Plane } from '../../../../src/core/frames/parallax/plane.ts';
import type { Window } from './window.ts';
import { centre, covariance, cut, cutBetween, windowOf } from './window.ts';

/** Pixels between places of the grid, on each level. */
export const PLACE_STEP_PX = 8;
const RADIUS_PX = 7;
/** Pixels searched to each side on the coarsest level, across and along. */
const COARSE_ACROSS = 5;
const COARSE_ALONG = 1;
const STEPS_AT_MOST = 6;
const SETTLED_PX = 0.005;
/** Grey differences below this are noise or rounding: two steps of 8 bits; white is 1. */
const NOISE_FLOOR = 2 / 255;

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

interface Start {
  readonly dx: number;
  readonly dy: number;
}

/** The displacements to try at a place: the coarser level’s results there and beside, and no motion. */
const startsAt = (coarser: MatchField | undefined, column: number, row: number): Start[] => {
  if (coarser === undefined) return everyStart;
  const starts = new Map<string, Start>();
  const add = (dx: number, dy: number) => {
    const start = { dx: Math.round(dx), dy: Math.round(dy) };
    starts.set(`${start.dx},${start.dy}`, start);
  };
  const middle = { column: column >> 1, row: row >> 1 };
  for (let y = middle.row - 1; y <= middle.row + 1; y += 1)
    for (let x = middle.column - 1; x <= middle.column + 1; x += 1) {
      if (x < 0 || y < 0 || x >= coarser.columns || y >= coarser.rows) continue;
      const at = y * coarser.columns + x;
      add(2 * coarser.dx[at]!, 2 * coarser.dy[at]!);
    }
  add(0, 0);
  return [...starts.values()];
};

const everyStart: Start[] = [];
for (let dy = -COARSE_ALONG; dy <= COARSE_ALONG; dy += 1)
  for (let dx = -COARSE_ACROSS; dx <= COARSE_ACROSS; dx += 1) everyStart.push({ dx, dy });

/** Matches places one by one and reuses its buffers. */
class PlaceMatcher {
  readonly #from: Plane;
  readonly #to: Plane;
  readonly #window: Window;
  readonly #template: Float64Array;
  readonly #candidate: Float64Array;
  readonly #scratch: Float64Array;
  readonly #slopeX: Float64Array;
  readonly #slopeY: Float64Array;

  constructor(from: Plane, to: Plane, window: Window) {
    this.#from = from;
    this.#to = to;
    this.#window = window;
    const cells = window.size * window.size;
    this.#template = new Float64Array(cells);
    this.#candidate = new Float64Array(cells);
    this.#scratch = new Float64Array(cells + 3 * window.size);
    this.#slopeX = new Float64Array(cells);
    this.#slopeY = new Float64Array(cells);
  }

  match(x: number, y: number, starts: readonly Start[], field: MatchField, at: number): void {
    const window = this.#window;
    cut(this.#from, x, y, window, this.#template);
    const variance = centre(this.#template, window);
    if (variance < NOISE_FLOOR ** 2) {
      const [first] = starts;
      field.dx[at] = starts === everyStart ? 0 : (first?.dx ?? 0);
      field.dy[at] = starts === everyStart ? 0 : (first?.dy ?? 0);
      field.likeness[at] = 0;
      field.unsure[at] = Infinity;
      return;
    }
    const best = this.#bestWhole(x, y, starts, variance);
    this.#refine(x, y, best, variance, field, at);
  }

  #likeness(x: number, y: number, variance: number): number {
    cut(this.#to, x, y, this.#window, this.#candidate);
    const other = centre(this.#candidate, this.#window);
    const together = covariance(this.#template, this.#candidate, this.#window);
    return together / Math.sqrt(variance * Math.max(other, NOISE_FLOOR ** 2));
  }

  #bestWhole(x: number, y: number, starts: readonly Start[], variance: number): Start {
    let best = starts[0]!;
    let most = -Infinity;
    for (const start of starts) {
      const likeness = this.#likeness(x + start.dx, y + start.dy, variance);
      if (likeness > most) [most, best] = [likeness, start];
    }
    if (starts === everyStart) return best;
    // A rounded start may be one pixel off: climb.
    for (let climbs = 0; climbs < 3; climbs += 1) {
      const from = best;
      for (const [sideX, sideY] of sides) {
        const next = { dx: from.dx + sideX, dy: from.dy + sideY };
        const likeness = this.#likeness(x + next.dx, y + next.dy, variance);
        if (likeness > most) [most, best] = [likeness, next];
      }
      if (best === from) break;
    }
    return best;
  }

  #slopes(x: number, y: number): { xx: number; xy: number; yy: number } {
    const { width, height, data } = this.#from;
    const { radius, size, weights } = this.#window;
    const pixel = (column: number, row: number) =>
      data[
        Math.min(height - 1, Math.max(0, row)) * width + Math.min(width - 1, Math.max(0, column))
      ]!;
    let [xx, xy, yy] = [0, 0, 0];
    for (let row = 0; row < size; row += 1)
      for (let column = 0; column < size; column += 1) {
        const i = row * size + column;
        const [cx, cy] = [x + column - radius, y + row - radius];
        const gx = (pixel(cx + 1, cy) - pixel(cx - 1, cy)) / 2;
        const gy = (pixel(cx, cy + 1) - pixel(cx, cy - 1)) / 2;
        this.#slopeX[i] = gx;
        this.#slopeY[i] = gy;
        const weight = weights[i]!;
        xx += weight * gx * gx;
        xy += weight * gx * gy;
        yy += weight * gy * gy;
      }
    return { xx, xy, yy };
  }

  #refine(x: number, y: number, start: Start, variance: number, field: MatchField, at: number) {
    const window = this.#window;
    const { weights } = window;
    const template = this.#template;
    const candidate = this.#candidate;
    const { xx, xy, yy } = this.#slopes(x, y);
    // A larger diagonal keeps dy small where only upright edges are visible.
    const stiff = yy + 1e-2 * xx + 1e-9;
    const determinant = xx * stiff - xy * xy;
    let { dx, dy } = start;
    let likeness = -1;
    let residual = variance;
    for (let step = 0; step < STEPS_AT_MOST; step += 1) {
      cutBetween(this.#to, x + dx, y + dy, window, this.#scratch, candidate);
      const other = centre(candidate, window);
      const together = covariance(template, candidate, window);
      likeness = together / Math.sqrt(variance * Math.max(other, 1e-12));
      const gain = together > 0 ? together / Math.max(other, 1e-12) : 1;
      let [bx, by] = [0, 0];
      residual = 0;
      for (let i = 0; i < template.length; i += 1) {
        const miss = template[i]! - gain * candidate[i]!;
        const weighted = weights[i]! * miss;
        residual += weighted * miss;
        bx += weighted * this.#slopeX[i]!;
        by += weighted * this.#slopeY[i]!;
      }
      if (!(determinant > 0)) break;
      const moveX = (stiff * bx - xy * by) / determinant;
      const moveY = (xx * by - xy * bx) / determinant;
      const length = Math.hypot(moveX, moveY);
      const scale = length > 1 ? 1 / length : 1;
      dx += moveX * scale;
      dy += moveY * scale;
      if (length < SETTLED_PX) break;
    }
    // Beyond this, refinement has left the whole-pixel match for another place.
    const strayed = Math.abs(dx - start.dx) > 1.5 || Math.abs(dy - start.dy) > 1.5;
    field.dx[at] = strayed ? start.dx : dx;
    field.dy[at] = strayed ? start.dy : dy;
    field.likeness[at] = strayed ? 0 : likeness;
    const slope = determinant > 0 ? determinant / stiff : 0;
    const noise = Math.max(Math.sqrt(residual), NOISE_FLOOR / 4);
    field.unsure[at] = strayed || slope <= 0 ? Infinity : noise / Math.sqrt(slope) / window.radius;
  }
}

const sides = [
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
] as const;

/** Matches one level. Yields after each row of places, so that long work can be stopped. */
function* matchLevel(
  from: Plane,
  to: Plane,
  coarser: MatchField | undefined,
): Generator<undefined, MatchField> {
  const field = emptyField(from);
  const matcher = new PlaceMatcher(from, to, windowOf(RADIUS_PX));
  for (let row = 0; row < field.rows; row += 1) {
    for (let column = 0; column < field.columns; column += 1)
      matcher.match(
        placeAt(column),
        placeAt(row),
        startsAt(coarser, column, row),
        field,
        row * field.columns + column,
      );
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
