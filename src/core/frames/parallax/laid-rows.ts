/**
 * Rows of a plane as the kernels take them: each continued to both sides by its edge, and the picture upwards and
 * downwards likewise, so that no kernel asks where it ends.
 */
import { roomFloats } from '../../numeric/kernels.ts';
import type { Plane } from './plane.ts';
import { clamp } from './window.ts';

/** Pixels that each row is continued by. */
const BESIDE_PX = 24;
/** So far beyond the edge, every pixel that a window covers is edge: its middle is never taken further out. */
const OUT_PX = 10;

/** Which rows are laid, in pixels of the plane; they may lie beyond it. */
export interface RowSpan {
  readonly first: number;
  readonly last: number;
}

/** Bytes from one row to the next. */
export const pitchOf = (width: number): number => 4 * (width + 2 * BESIDE_PX);

export const bytesOf = (width: number, { first, last }: RowSpan): number =>
  (last - first + 1) * pitchOf(width);

/** Least and most of where a window's middle is taken, along an axis of this length. */
export const middles = (length: number): readonly [number, number] => [
  -OUT_PX,
  length - 1 + OUT_PX,
];

/**
 * @param data row-major, as in a plane of this size
 * @param at address of a room of `bytesOf`
 * @returns the address of pixel (0, 0), which need not be laid: it may be below 0
 */
export const layPlaneRows = (
  { width, height }: Plane,
  data: Float32Array,
  { first, last }: RowSpan,
  at: number,
): number => {
  const pitch = pitchOf(width) / 4;
  const room = roomFloats(at, (last - first + 1) * pitch);
  for (let row = first, to = 0; row <= last; row += 1, to += pitch) {
    const from = clamp(row, height - 1) * width;
    const end = to + BESIDE_PX + width;
    room.set(data.subarray(from, from + width), to + BESIDE_PX);
    room.fill(data[from]!, to, to + BESIDE_PX);
    room.fill(data[from + width - 1]!, end, end + BESIDE_PX);
  }
  return at + 4 * (BESIDE_PX - first * pitch);
};
