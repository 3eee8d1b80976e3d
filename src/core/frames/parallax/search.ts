/** Searches the slope of every place through a sequence: lays frames out for the kernel that does it. */
import { kernels, layRooms, roomFloats, roomWords } from '../../numeric/kernels.ts';
import type { RowSpan } from './laid-rows.ts';
import { bytesOf, layPlaneRows, middles, pitchOf } from './laid-rows.ts';
import { placeAt, placesOver } from './match.ts';
import type { Other } from './others.ts';
import type { FoundSlopes } from './own-surface.ts';
import { toneAt } from './own-surface.ts';
import type { Plane } from './plane.ts';

/** Rows of places searched at once: some 10 ms. */
const ROWS_AT_ONCE = 8;

const RADIUS_PX = 4;
const SIZE = 2 * RADIUS_PX + 1;
/** The kernel takes rows of so many. */
const LAID = 12;
/** How far from the middle pixels count (our own value). */
const SPREAD_PX = 2.5;

/** Weight of each pixel of the window by its place: f32[9 × 12], the last three of each row 0. */
const nearness = Float32Array.from({ length: SIZE * LAID }, (_, i) => {
  const [u, v] = [(i % LAID) - RADIUS_PX, Math.floor(i / LAID) - RADIUS_PX];
  return u > RADIUS_PX ? 0 : Math.exp(-(u * u + v * v) / (2 * SPREAD_PX ** 2));
});

/** Lays out some rows of every frame. @returns addresses. */
const laySequence = (plane: Plane, others: readonly Other[], rows: RowSpan) => {
  const { width, data, sharp = data } = plane;
  const bytes = bytesOf(width, rows);
  const places = placesOver(width);
  const [soft, asItWas, frames, list, sequence, near, ranges, out, scratch] = layRooms(
    bytes,
    bytes,
    bytes * others.length,
    24 * others.length,
    48,
    nearness.byteLength,
    16 * places,
    8 * places,
    4096,
  );
  roomFloats(near, nearness.length).set(nearness);
  const room = new DataView(kernels().memory.buffer);
  others.forEach((other, i) => {
    const at = list + 24 * i;
    const frame = layPlaneRows(other.plane, other.plane.data, rows, frames + bytes * i);
    room.setInt32(at, frame, true);
    room.setFloat64(at + 8, other.along, true);
    room.setFloat64(at + 16, other.slip, true);
  });
  roomWords(sequence, 8).set([
    layPlaneRows(plane, data, rows, soft),
    layPlaneRows(plane, sharp, rows, asItWas),
    pitchOf(width),
    ...middles(width),
    list,
    others.length,
    near,
  ]);
  const before = others.filter(({ along }) => along < 0).length;
  room.setFloat64(sequence + 32, before, true);
  room.setFloat64(sequence + 40, others.length - before, true);
  return { sequence, ranges, out, scratch };
};

/**
 * The best slope of every place, and whether it is that of the place’s own surface. Yields after some rows of places.
 * @param others compared with the plane. The farthest come first: they tell soonest that a slope does not fit.
 * @param rangeOf least and largest slope to try at a place, by column and row
 */
export function* searched(
  plane: Plane,
  others: readonly Other[],
  rangeOf: (column: number, row: number) => readonly [number, number],
): Generator<undefined, FoundSlopes> {
  const [columns, rows] = [placesOver(plane.width), placesOver(plane.height)];
  const slopes = new Float32Array(columns * rows);
  const own = new Uint8Array(columns * rows);
  const tones = new Float32Array(columns * rows);
  for (let first = 0; first < rows; first += ROWS_AT_ONCE) {
    const end = Math.min(rows, first + ROWS_AT_ONCE);
    const span = { first: placeAt(first) - RADIUS_PX, last: placeAt(end - 1) + RADIUS_PX };
    const laid = laySequence(plane, others, span);
    const ranges = new Float64Array(kernels().memory.buffer, laid.ranges, 2 * columns);
    const out = roomFloats(laid.out, 2 * columns);
    for (let row = first; row < end; row += 1) {
      for (let column = 0; column < columns; column += 1)
        ranges.set(rangeOf(column, row), 2 * column);
      kernels().slopeRow(laid.sequence, placeAt(row), columns, laid.ranges, laid.out, laid.scratch);
      for (let column = 0, at = row * columns; column < columns; column += 1, at += 1) {
        slopes[at] = out[2 * column]!;
        own[at] = out[2 * column + 1]!;
        tones[at] = toneAt(plane, placeAt(column), placeAt(row));
      }
    }
    yield;
  }
  return { columns, rows, slopes, own, tones };
}
